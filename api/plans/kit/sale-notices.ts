import type { KitSale } from "../../scoring/provision/kit-sale.ts";
import { plural } from "../words.ts";

interface Notice {
  readonly code: string;
  readonly text: string;
}

/** What the reader must know about packs, service kits and caps. */
export function saleNotices(sale: KitSale): readonly Notice[] {
  const notices: Notice[] = [];
  const add = (code: string, text: string): void => {
    notices.push({ code, text });
  };
  const packs = sale.purchases.filter(({ offer }) => offer.kind === "piece" && offer.pack > 1);
  const kits = sale.purchases.filter(({ offer }) => offer.kind === "kit");
  const least = sale.purchases.filter(
    ({ offer, units }) => (offer.sale.least ?? 1) === units && units > 1,
  );
  if (packs.length > 0) {
    add(
      "sold-in-packs",
      `${plural(packs.length, "part")} to buy ${packs.length === 1 ? "comes" : "come"} in packs: whole packs are paid for and all their pieces count.`,
    );
  }
  if (least.length > 0) {
    add(
      "least-order",
      `${plural(least.length, "part")} to buy ${least.length === 1 ? "is" : "are"} bought at the supplier's least order, which may be more than the kit needs.`,
    );
  }
  if (kits.length > 0) {
    add(
      "service-kits",
      `${plural(kits.length, "service kit")} to buy ${kits.length === 1 ? "counts" : "count"} by what is inside: one may be opened for one part. Mark an opened box, and check its contents against the maker's list.`,
    );
  }
  if (sale.purchases.some(({ offer }) => offer.kind === "aboard")) {
    add(
      "service-kits-aboard",
      "The kit reckons with opening service kits aboard for their parts; they then no longer serve as whole kits.",
    );
  }
  const { outcome } = sale;
  const { caps, weights } = sale.problem;
  const unknownMass = sale.purchases.filter(({ offer }) => !offer.isMassKnown).length;
  const unknownVolume = sale.purchases.filter(({ offer }) => !offer.isVolumeKnown).length;
  const weighsMass = caps.mass !== undefined || sale.problem.objective === "mass";
  const weighsVolume = caps.volume !== undefined || sale.problem.objective === "volume";
  const inLockers = caps.lockers ?? [];
  const size = (count: number, what: "mass" | "volume"): void => {
    const stated = sale.offers.some(({ isMassKnown, isVolumeKnown, kind }) =>
      kind === "aboard" ? false : what === "mass" ? isMassKnown : isVolumeKnown,
    );
    add(
      "size-unknown",
      stated
        ? `${plural(count, "line")} to buy ${count === 1 ? "has" : "have"} no stated ${what}; the median of the stated ones stands in, so ${what === "mass" ? "weigh" : "measure"} before you trust the figure.`
        : `No part on offer has a stated ${what}, so one ${what === "mass" ? "gram" : "millilitre"} stands in for each piece and the figure says only how many there are: state some ${what === "mass" ? "masses" : "volumes"} first.`,
    );
  };
  if (unknownMass > 0 && (weighsMass || inLockers.some((room) => room.mass !== undefined)))
    size(unknownMass, "mass");
  if (unknownVolume > 0 && (weighsVolume || inLockers.some((room) => room.volume !== undefined)))
    size(unknownVolume, "volume");
  if (outcome !== undefined) {
    if (!outcome.isSafe) {
      add(
        "caps-below-safety",
        outcome.needs.length > 0
          ? "The caps are below what the safety tier needs; the kit shown comes as near to the safety target as they allow, and buys nothing for the other tiers."
          : "Each cap alone would allow the safety target, but all together do not; the kit shown comes as near to it as they allow, and buys nothing for the other tiers.",
      );
    } else if (outcome.aim === "most") {
      add(
        "caps-most",
        `Safety first: its target is held. Within the caps the kit then makes the chance of not running short as great as can be, the tiers weighted ${weights.join(", ")} (safety, passage, comfort)${outcome.isFallback ? ", since the caps do not allow every target" : ", and so spends the caps; ask for the least cost to stop at the targets"}.`,
      );
    }
  }
  if (sale.repaired) {
    add(
      "solver-repaired",
      "The solver's first kit missed a target by less than its own tolerance; the kit shown reaches it in exact terms.",
    );
  }
  return notices;
}
