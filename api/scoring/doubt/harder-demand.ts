import { convolveAll, type Pmf } from "../demand/pmf.ts";
import { poissonDemand } from "../demand/poisson-demand.ts";
import type { ClassDemand } from "../provision/class-demand.ts";
import type { DemandLine } from "../provision/demand-line.ts";
import { failureDemand } from "../provision/failure-demand.ts";
import type { Passage } from "../provision/passage.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

/**
 * Returns the demand of one part class with the failure rate of each of its lines multiplied by a factor.
 *
 * A rate times f is an exposure times f, for every kind of evidence (a wear-out life is then used up f times as fast
 * from departure on; its age at departure stays). Planned services stay as they are. Lines with factor 1 are not
 * computed again.
 *
 * @param factor >= 0 for each line of the class
 * Cost: that of the lines whose factor is not 1, and one convolution.
 */
export function harderDemand(
  snapshot: Snapshot,
  need: Pick<ClassDemand, "lines">,
  passage: Passage,
  factor: (line: DemandLine) => number,
): Pmf {
  let poissonMean = 0;
  const terms: Pmf[] = [];
  for (const line of need.lines) {
    const times = line.origin === "service" ? 1 : factor(line);
    const found =
      times === 1
        ? line
        : failureDemand(snapshot, line.model, line.usesLine, line.items, passage, [], times);
    if (!("poissonMean" in found)) continue;
    poissonMean += found.poissonMean;
    terms.push(...found.terms);
  }
  return convolveAll([...(poissonMean > 0 ? [poissonDemand(poissonMean)] : []), ...terms]);
}
