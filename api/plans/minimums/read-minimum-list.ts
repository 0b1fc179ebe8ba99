import type { MinimumBasis, MinimumRule } from "../../scoring/minimums/minimum-rule.ts";
import { type OwnRow, readOwnList } from "../read-own-list.ts";

/** A minimum list as it was written. */
export interface MinimumList {
  readonly id: string;
  readonly title: string;
  readonly applies: string;
  readonly rules: readonly MinimumRule[];
}

const columns = {
  Place: ["Place"],
  Gear: ["Gear"],
  "Not when": ["Not when"],
  Spare: ["Spare"],
  "Must fit": ["Must fit"],
  Basis: ["Basis"],
  Quantity: ["Quantity"],
  Per: ["Per"],
  "At least": ["At least"],
  "Of each": ["Of each"],
  "Covers units": ["Covers units"],
  "What it asks": ["What it asks"],
  Source: ["Source"],
  Dated: ["Dated"],
} as const;
type Column = keyof typeof columns;

const bases: readonly MinimumBasis[] = ["ship", "unit", "kind", "number", "per cent"];
const needed: readonly Column[] = ["Spare", "Basis", "What it asks", "Source"];

const titleOf = (line: string): string => line.replace(/[,;\t|]+$/, "").trim();

/**
 * A minimum list from its CSV: title lines (what it is called; when it applies), a header with the columns above in
 * any order, a rule a row. Errors: those of `readOwnList`.
 */
export function readMinimumList(id: string, content: Uint8Array | string): MinimumList {
  const { titles, rows } = readOwnList(
    content,
    {
      columns,
      needed,
      name: `The minimum list "${id}"`,
      withheld: "nothing was checked against it",
    },
    readRule,
  );
  const [title, applies] = titles.map(titleOf).filter((line) => line !== "");
  return { id, title: title ?? id, applies: applies ?? "", rules: rows };
}

function readRule({ cell, fault }: OwnRow<Column>): MinimumRule {
  const number = (column: Column, least: number, isWhole: boolean): number | undefined => {
    const text = cell(column).replace(",", ".");
    if (text === "") return undefined;
    const value = Number(text);
    if (Number.isFinite(value) && value >= least && (!isWhole || Number.isInteger(value))) {
      return value;
    }
    fault(
      column,
      `must be ${isWhole ? "a whole number" : "a number"}, ${least} or more`,
      "Correct it, or leave it empty.",
    );
    return undefined;
  };
  const yesNo = (column: Column): boolean => {
    const text = cell(column).toLowerCase();
    if (!["", "yes", "no", "y", "n"].includes(text)) {
      fault(column, "must be yes or no", "Write yes or no; empty means no.");
    }
    return text === "yes" || text === "y";
  };
  const phrases = (column: Column): string[] =>
    cell(column)
      .split("|")
      .map((phrase) => phrase.trim())
      .filter((phrase) => phrase !== "");
  const basis = cell("Basis").toLowerCase() as MinimumBasis;
  if (!bases.includes(basis)) {
    fault("Basis", `must be one of ${bases.join(", ")}`, "Say what the rule counts by.");
  }
  for (const column of needed) {
    if (column !== "Basis" && cell(column) === "") {
      fault(column, "must not be empty", "A rule nobody can trace or apply is no rule.");
    }
  }
  const gear = phrases("Gear");
  if (gear.length === 0 && basis !== "ship") {
    fault("Gear", "must name the gear unless the basis is ship", "Name its category.");
  }
  return {
    place: cell("Place"),
    gear,
    notWhen: phrases("Not when"),
    spare: phrases("Spare"),
    mustFit: yesNo("Must fit"),
    basis,
    quantity: number("Quantity", 0, false),
    per: number("Per", 1, true) ?? 1,
    atLeast: number("At least", 0, true) ?? 0,
    ofEach: yesNo("Of each"),
    coversUnits: number("Covers units", 1, true),
    words: cell("What it asks"),
    source: cell("Source"),
    dated: cell("Dated"),
  };
}
