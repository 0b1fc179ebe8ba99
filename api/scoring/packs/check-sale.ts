import { Problem } from "../../errors/problem.ts";
import { resources, type SaleProblem } from "./sale-problem.ts";

const refuse = (what: string, rule: string, got: unknown, remedy: string): never => {
  throw new Problem("input-invalid", `${what}: ${rule}; got ${String(got)}. ${remedy}`);
};
const isCount = (value: number): boolean => Number.isSafeInteger(value) && value >= 0;

/**
 * Returns nothing; throws Problem `input-invalid` unless a sale problem can be reckoned with exactly: whole units >= 0
 * everywhere, contents that name a part once, caps that are numbers >= 0, weights >= 0.
 */
export function checkSale({ parts, offers, caps, weights }: SaleProblem): void {
  parts.forEach((part, p) => {
    const name = `Part ${p}`;
    if (part.logCdf.length === 0 || part.logCdf.some(Number.isNaN))
      refuse(name, "logCdf must hold one number per count of pieces", "none or NaN", "Give one.");
    if (!isCount(part.held ?? 0))
      refuse(name, "held must be a whole number >= 0", part.held, "Count good pieces.");
  });
  offers.forEach((offer, u) => {
    const name = `Offer ${u}`;
    const seen = new Set<number>();
    for (const { part, pieces } of offer.contents) {
      if (parts[part] === undefined || seen.has(part))
        refuse(name, "its contents must name each part once", part, "Add up its pieces.");
      seen.add(part);
      if (!Number.isSafeInteger(pieces) || pieces === 0)
        refuse(name, "pieces inside must be a whole number, not 0", pieces, "Leave it out.");
      if (pieces < 0 && offer.most === undefined)
        refuse(name, "what takes pieces must be limited", "no most", "Give most.");
    }
    for (const resource of resources) {
      if (!isCount(offer.uses[resource]))
        refuse(name, `${resource} must be a whole number >= 0`, offer.uses[resource], "Round up.");
    }
    if (!(isCount(offer.least ?? 1) && (offer.least ?? 1) >= 1))
      refuse(name, "the least order must be a whole number >= 1", offer.least, "Leave it out.");
    if (!isCount(offer.most ?? 0))
      refuse(name, "the most to be had must be a whole number >= 0", offer.most, "Leave it out.");
  });
  const rooms = caps.lockers ?? [];
  const limits = [caps.cost, caps.mass, caps.volume, ...rooms.flatMap((r) => [r.mass, r.volume])];
  for (const limit of limits) {
    if (limit !== undefined && !(limit >= 0))
      refuse("A cap", "it must be a number >= 0", limit, "Leave it out for no cap.");
  }
  for (const weight of weights) {
    if (!(weight >= 0 && weight < Infinity))
      refuse("A tier's weight", "it must be a number >= 0", weight, "Give 1 where in doubt.");
  }
}
