import { Problem } from "../../errors/problem.ts";
import type { KitPart } from "./kit-problem.ts";

const reject = (index: number, rule: string, got: unknown, remedy: string): never => {
  throw new Problem("input-invalid", `Part ${index}: ${rule}; got ${String(got)}. ${remedy}`);
};

/**
 * Returns nothing; throws Problem `input-invalid` unless every part can be reckoned with exactly.
 *
 * Unit and step costs must be safe integers >= 0, `logCdf` must hold at least one value and no NaN, `maxBuy`
 * must be an integer >= 0, and the dearest kit must cost a safe integer (so that costs add exactly).
 */
export function checkParts(parts: readonly KitPart[]): void {
  let dearest = 0;
  parts.forEach((part, index) => {
    if (!(Number.isSafeInteger(part.unitCost) && part.unitCost >= 0)) {
      reject(index, "unitCost must be a whole number >= 0", part.unitCost, "Use minor units.");
    }
    if (part.maxBuy !== undefined && !(Number.isSafeInteger(part.maxBuy) && part.maxBuy >= 0)) {
      reject(
        index,
        "maxBuy must be a whole number >= 0",
        part.maxBuy,
        "Leave it out for no limit.",
      );
    }
    if (part.logCdf.length === 0) {
      reject(index, "logCdf must hold the log-probability of x = 0", "no value", "Give one per x.");
    }
    if (part.logCdf.some(Number.isNaN)) {
      reject(index, "logCdf must hold numbers", "NaN", "ln 0 is -Infinity.");
    }
    if (part.stepCost !== undefined && part.stepCost.length !== part.logCdf.length) {
      reject(
        index,
        "stepCost must be as long as logCdf",
        part.stepCost.length,
        "Give one per step.",
      );
    }
    const top = Math.min(part.logCdf.length - 1, part.maxBuy ?? Infinity);
    part.stepCost?.forEach((cost, x) => {
      if (!(Number.isSafeInteger(cost) && cost >= (part.stepCost?.[x - 1] ?? 0))) {
        reject(
          index,
          "stepCost must be whole numbers >= 0 that never fall",
          cost,
          "Sort the steps.",
        );
      }
    });
    dearest += part.stepCost?.[top] ?? part.unitCost * top;
  });
  if (dearest > Number.MAX_SAFE_INTEGER) {
    throw new Problem(
      "input-invalid",
      `The dearest kit must cost at most ${Number.MAX_SAFE_INTEGER}; got ${dearest}. Use a coarser unit or cut the stock levels.`,
    );
  }
}
