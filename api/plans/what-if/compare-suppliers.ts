import type { SuppliersAnswer } from "../../contract/suppliers.contract.ts";
import { plural } from "../words.ts";
import type { Beside } from "./beside-before.ts";

/** Dates play no part in these figures. */
const anyDay = "1970-01-01";

const countWords = (difference: number): string =>
  difference === 0
    ? "as many parts"
    : `${plural(Math.abs(difference), `${difference > 0 ? "more" : "fewer"} part`)}`;

/** Sets two answers on suppliers side by side: what is covered, by how many at least, and what hangs on one. */
export const suppliersSideBySide: Beside<SuppliersAnswer> = {
  scene: ({ scope }) => ({ vessel: scope.vessel?.id, fittedOn: anyDay }),
  figures: ({ gear, least, singleSource, unsold }) => [
    { figure: "items that can be covered", kind: "count", value: gear.coverable },
    { figure: "parts to cover", kind: "count", value: gear.parts },
    { figure: "parts someone sells", kind: "count", value: gear.partsSold },
    { figure: "least suppliers for all on sale", kind: "count", value: least.suppliers.length },
    { figure: "parts only one sells", kind: "count", value: singleSource.length },
    { figure: "parts nobody sells", kind: "count", value: unsold.length },
  ],
  sentence: (before, after) => {
    const unsold = countWords(after.unsold.length - before.unsold.length);
    const sole = countWords(after.singleSource.length - before.singleSource.length);
    return `With the change there are ${unsold} that nobody sells and ${sole} that only one supplier sells; everything on sale takes ${plural(after.least.suppliers.length, "supplier")}${after.least.suppliers.length === before.least.suppliers.length ? ", as before" : ` instead of ${before.least.suppliers.length}`}.`;
  },
};
