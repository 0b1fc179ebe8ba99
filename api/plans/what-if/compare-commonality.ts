import type { CommonalityAnswer } from "../../contract/commonality.contract.ts";
import { plural } from "../words.ts";
import type { Beside } from "./beside-before.ts";

const change = (difference: number, one: string): string =>
  difference === 0
    ? `as many ${one}s`
    : `${plural(Math.abs(difference), one)} ${difference > 0 ? "more" : "fewer"}`;

/** Dates play no part in these figures. */
const anyDay = "1970-01-01";

/** Sets two pictures of how alike the gear is side by side. */
export const commonalitySideBySide: Beside<CommonalityAnswer> = {
  scene: ({ scope }) => ({ vessel: scope.vessel?.id, fittedOn: anyDay }),
  figures: ({ whole }) => [
    { figure: "models", kind: "count", value: whole.models },
    { figure: "fitted items", kind: "count", value: whole.items },
    { figure: "different parts", kind: "count", value: whole.distinctParts },
    { figure: "parts of one model only", kind: "count", value: whole.usedByOneModelOnly },
    { figure: "different spares kits", kind: "count", value: whole.distinctKits },
    { figure: "kits that need a box", kind: "count", value: whole.maximalKits },
    {
      figure: "degree of commonality",
      kind: "index",
      value: whole.degreeOfCommonality ?? undefined,
    },
    {
      figure: "total constant commonality",
      kind: "index",
      value: whole.totalConstantCommonality ?? undefined,
    },
  ],
  sentence: (before, after) =>
    `With the change the gear takes ${change(after.whole.distinctParts - before.whole.distinctParts, "different part")} and ${change(after.whole.distinctKits - before.whole.distinctKits, "spares kit")}.`,
};
