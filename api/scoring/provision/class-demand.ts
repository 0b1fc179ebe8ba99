import type { PartClasses } from "../classes/part-classes.ts";
import { convolveAll, meanOf, type Pmf } from "../demand/pmf.ts";
import { poissonDemand } from "../demand/poisson-demand.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import type { DemandLine, Evidence } from "./demand-line.ts";
import type { ServedFunction } from "./function-slack.ts";

/** The pooled demand of one part class on one vessel, with its tier and redundancy credit. */
export interface ClassDemand {
  readonly partClass: number;
  readonly lines: readonly DemandLine[];
  readonly pmf: Pmf;
  readonly mean: number;
  readonly assumedMean: number;
  readonly evidence: Evidence;
  /** 0 safety, 1 passage, 2 comfort. */
  readonly tier: 0 | 1 | 2;
  readonly isSafety: boolean;
  /** V: pieces that donors can give. */
  readonly credit: number;
}

const evidenceRank: readonly Evidence[] = ["scheduled", "measured", "own history", "assumed"];

/** The tier each model falls under on this vessel: the strictest function its items serve; passage where none is named. */
export function tierOfModels(
  snapshot: Snapshot,
  functions: readonly ServedFunction[],
): ReadonlyMap<number, 0 | 1 | 2> {
  const tiers = new Map<number, 0 | 1 | 2>();
  for (const f of functions) {
    for (const item of f.items) {
      const model = snapshot.items.model[item] ?? -1;
      const tier = f.tier === 0 ? 0 : f.tier === 2 ? 2 : 1;
      tiers.set(model, Math.min(tiers.get(model) ?? 2, tier) as 0 | 1 | 2);
    }
  }
  return tiers;
}

/**
 * The tier of one line: the model's own tier where a failure stops it or a service needs it; one step looser
 * where a failure degrades it; comfort where it does neither.
 */
function tierOfLine(line: DemandLine, modelTier: 0 | 1 | 2): 0 | 1 | 2 {
  if (line.origin === "service" || line.effect === 0) return modelTier;
  return line.effect === 1 && modelTier === 0 ? 1 : 2;
}

/**
 * Pools the demand lines of a vessel by part class.
 *
 * D_p = sum over lines: Poisson means are added, the other terms convolved. Lines that cannot be mended at sea are
 * left out (a spare buys nothing there). The credit is the largest number of pieces donors can give, sum over
 * models of donors × pieces in one item, for lines whose failure stops the item; a class that any line or its own
 * mark makes safety gear gets none. O(lines + convolutions).
 *
 * @param donors items of each model that may be robbed; pass an empty map when robbing is switched off
 * @param known classes pooled before: one made of the very same lines is not convolved again
 */
export function classDemands(
  snapshot: Snapshot,
  classes: PartClasses,
  lines: readonly DemandLine[],
  functions: readonly ServedFunction[],
  donors: ReadonlyMap<number, number>,
  known: readonly ClassDemand[] = [],
): readonly ClassDemand[] {
  const knownOf = new Map(known.map((one) => [one.partClass, one]));
  const modelTier = tierOfModels(snapshot, functions);
  const byClass = new Map<number, DemandLine[]>();
  for (const line of lines) {
    if (!line.fittable) continue;
    const partClass = classes.classOf[line.part] ?? -1;
    const list = byClass.get(partClass);
    if (list === undefined) byClass.set(partClass, [line]);
    else list.push(line);
  }
  const pooled: ClassDemand[] = [];
  for (const [partClass, own] of [...byClass].sort((x, y) => x[0] - y[0])) {
    const tier = own.reduce<0 | 1 | 2>(
      (least, line) =>
        Math.min(least, tierOfLine(line, modelTier.get(line.model) ?? 1)) as 0 | 1 | 2,
      2,
    );
    const marked = (classes.members[partClass] ?? []).some(
      (part) => snapshot.parts.isSafety[part] === 1,
    );
    const isSafety = marked || tier === 0;
    const before = knownOf.get(partClass);
    const isKnown =
      before?.lines.length === own.length && own.every((line, at) => line === before.lines[at]);
    const { pmf, mean } = isKnown ? before : pooledDemand(own);
    pooled.push({
      partClass,
      lines: own,
      pmf,
      mean,
      assumedMean: own.reduce((sum, line) => sum + line.assumedMean, 0),
      evidence: own.reduce<Evidence>(
        (worst, line) =>
          evidenceRank.indexOf(line.evidence) > evidenceRank.indexOf(worst) ? line.evidence : worst,
        "scheduled",
      ),
      tier: marked ? 0 : tier,
      isSafety,
      credit: isSafety ? 0 : creditOf(own, donors),
    });
  }
  return pooled;
}

/** Poisson means added, the other terms convolved. */
function pooledDemand(lines: readonly DemandLine[]): Pick<ClassDemand, "pmf" | "mean"> {
  const poissonMean = lines.reduce((sum, line) => sum + line.poissonMean, 0);
  const terms = lines.flatMap((line) => line.terms);
  return {
    pmf: convolveAll([...(poissonMean > 0 ? [poissonDemand(poissonMean)] : []), ...terms]),
    mean: terms.reduce((sum, term) => sum + meanOf(term), poissonMean),
  };
}

function creditOf(lines: readonly DemandLine[], donors: ReadonlyMap<number, number>): number {
  const perModel = new Map<number, number>();
  for (const line of lines) {
    if (line.origin !== "failure" || line.effect !== 0) continue;
    perModel.set(line.model, (perModel.get(line.model) ?? 0) + line.quantity);
  }
  let credit = 0;
  for (const [model, pieces] of perModel) credit += (donors.get(model) ?? 0) * pieces;
  return credit;
}
