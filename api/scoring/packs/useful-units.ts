import { logAt } from "./judge-sale.ts";
import type { SaleProblem } from "./sale-problem.ts";

/** Fewest pieces that give a part its greatest chance: more change nothing. */
export function lastUseful(logCdf: Float64Array): number {
  const top = logAt(logCdf, logCdf.length - 1);
  let last = logCdf.length - 1;
  while (last > 0 && logAt(logCdf, last - 1) === top) last--;
  return last;
}

/**
 * Returns the most units of offer u that any kit worth having holds: enough to fill everything inside it to its last
 * useful piece by itself (and what may be taken out again by opening), but no less than its least order.
 */
export function mostUseful({ parts, offers }: SaleProblem, u: number): number {
  const offer = offers[u];
  if (offer === undefined) return 0;
  let useful = 0;
  for (const { part, pieces } of offer.contents) {
    if (pieces < 0) continue;
    const own = parts[part];
    if (own === undefined) continue;
    const taken = offers.reduce((sum, other) => {
      const takes = other.contents.find((c) => c.part === part && c.pieces < 0);
      return sum + (takes === undefined ? 0 : -takes.pieces * (other.most ?? 0));
    }, 0);
    useful = Math.max(useful, Math.ceil((lastUseful(own.logCdf) + taken) / pieces));
  }
  const least = offer.least ?? 1;
  const most = useful === 0 ? 0 : Math.max(least, useful);
  const limited = Math.min(most, offer.most ?? Infinity, offer.oneOf === undefined ? Infinity : 1);
  return limited < least ? 0 : limited;
}
