import { Problem } from "../../errors/problem.ts";
import type { CrossingModel, WearingSource } from "./crossing-model.ts";
import { drawGamma, drawPoisson, weightedPicker } from "./draws.ts";
import type { EventList } from "./event-list.ts";
import type { Random } from "./xoshiro.ts";

const mostFailures = 100_000;

/**
 * Returns a function that fills a list with every demand of one crossing.
 *
 * - constant rates: one Poisson number for all of them together, each then given to a source in proportion to its
 *   mean and to a day at random, so that what does not fail costs nothing (superposition of Poisson processes);
 * - uncertain rates: one gamma draw per source and crossing, then a Poisson number at that rate;
 * - wear: each piece's first life given its age, by inversion; for an unknown age (T/η)^β ~ Gamma(1/β), the
 *   equilibrium law; then whole lives until the exposure is over;
 * - services on their days; handled pieces are lost one by one.
 *
 * Source: METHODS, sections 1 and 9; D. R. Cox, Renewal Theory (1962), ch. 2 for the equilibrium life.
 * Throws `rate-invalid` where more than 100 000 failures are expected of one crossing.
 */
export function crossingDrawer(model: CrossingModel): (random: Random, events: EventList) => void {
  const means = Float64Array.from(model.steady, (source) => source.mean);
  const total = means.reduce((sum, mean) => sum + mean, 0);
  const uncertain = model.uncertain.reduce((sum, { shape, scale }) => sum + shape * scale, 0);
  if (!(total + uncertain <= mostFailures)) {
    throw new Problem(
      "rate-invalid",
      `At most ${mostFailures} failures may be expected of one crossing to simulate it; the rates given make ${Math.round(total + uncertain)}. Check their units.`,
    );
  }
  const pick = total > 0 ? weightedPicker(means) : () => 0;
  const { days } = model;
  const wearing = model.wearing.map((source) => ({ source, ...firstLifeOf(source) }));
  return (random, events) => {
    for (let left = drawPoisson(random, total); left > 0; left--) {
      const source = model.steady[pick(random)];
      if (source !== undefined) events.add(source, random() * days);
    }
    for (const { shape, scale, places } of model.uncertain) {
      const mean = scale * drawGamma(random, shape);
      for (let left = drawPoisson(random, mean); left > 0; left--) {
        const place = places[Math.floor(random() * places.length)];
        if (place !== undefined) events.add(place, random() * days);
      }
    }
    for (const { source, worn, failsBy } of wearing) {
      for (let unit = 0; unit < source.units; unit++) {
        let at: number;
        if (Number.isNaN(source.age)) {
          at = source.scale * drawGamma(random, 1 / source.shape) ** (1 / source.shape);
        } else {
          const u = random();
          if (u >= failsBy) continue;
          at = source.scale * (worn - Math.log1p(-u)) ** (1 / source.shape) - source.age;
        }
        while (at < source.exposure) {
          events.add(source, (at / source.exposure) * days);
          at += source.scale * (-Math.log(random())) ** (1 / source.shape);
        }
      }
    }
    for (const source of model.planned) {
      const { day, pieces, lossChance } = source;
      for (let piece = 0; piece < pieces; piece++) {
        if (Number.isNaN(lossChance) || random() < lossChance) events.add(source, day);
      }
    }
  };
}

/** Wear carried at departure, (age/η)^β, and the chance of failing within the exposure, for a known age. */
function firstLifeOf({ age, scale, shape, exposure }: WearingSource) {
  const worn = (age / scale) ** shape;
  return { worn, failsBy: -Math.expm1(worn - ((age + exposure) / scale) ** shape) };
}
