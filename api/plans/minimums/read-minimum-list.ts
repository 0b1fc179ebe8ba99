import { readTable } from "../../../importers/index.ts";
import { Problem, type ProblemPlace } from "../../errors/problem.ts";
import type { MinimumBasis, MinimumRule } from "../../scoring/minimums/minimum-rule.ts";

/** A minimum list as it was written. */
export interface MinimumList {
  readonly id: string;
  readonly title: string;
  readonly applies: string;
  readonly rules: readonly MinimumRule[];
}

const columns = [
  "Place",
  "Gear",
  "Not when",
  "Spare",
  "Must fit",
  "Basis",
  "Quantity",
  "Per",
  "At least",
  "Of each",
  "Covers units",
  "What it asks",
  "Source",
  "Dated",
] as const;
type Column = (typeof columns)[number];

const bases: readonly MinimumBasis[] = ["ship", "unit", "kind", "number", "per cent"];
const needed: readonly Column[] = ["Spare", "Basis", "What it asks", "Source"];

const plainHeader = (text: string): string => text.trim().toLowerCase();
const titleOf = (line: string | undefined): string => (line ?? "").replace(/[,;\t|]+$/, "").trim();

/**
 * A minimum list from its CSV: title lines (what it is called; when it applies), a header with the columns above in
 * any order, a rule a row. Errors: `file-empty`, `file-binary`, `input-invalid` with every fault of every row:
 * the rule, the value received and the remedy.
 */
export function readMinimumList(id: string, content: Uint8Array | string): MinimumList {
  const isKnownName = (cell: string): boolean =>
    columns.some((column) => plainHeader(column) === plainHeader(cell));
  const { table, rows } = readTable(content, { isKnownName });
  const at = new Map<Column, number>();
  for (const column of columns) {
    const found = table.header.findIndex((name) => plainHeader(name) === plainHeader(column));
    if (found >= 0) at.set(column, found);
  }
  const missing = needed.filter((column) => !at.has(column));
  if (missing.length > 0) {
    throw new Problem(
      "input-invalid",
      `A minimum list needs the columns ${needed.join(", ")}; "${id}" lacks ${missing.join(", ")} (its header: ${table.header.join(", ")}). Name them in the header row; the others may be left out: ${columns.filter((column) => !needed.includes(column)).join(", ")}.`,
    );
  }
  const places: ProblemPlace[] = [];
  const rules = rows.map((cells, index): MinimumRule => {
    const line = table.lineOf(index);
    const cell = (column: Column): string => (cells[at.get(column) ?? -1] ?? "").trim();
    const fault = (column: Column, rule: string, remedy: string): void => {
      places.push({
        pointer: `/line/${line}/${column}`,
        detail: `line ${line}, ${column}: ${rule}; received "${cell(column)}". ${remedy}`,
      });
    };
    for (const structural of table.faults.get(index) ?? []) {
      places.push({
        pointer: `/line/${line}`,
        detail: `line ${line}: ${structural.rule}; received ${structural.value}. ${structural.remedy}`,
      });
    }
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
  });
  if (places.length > 0) {
    throw new Problem(
      "input-invalid",
      `The minimum list "${id}" has ${places.length} ${places.length === 1 ? "fault" : "faults"}; nothing was checked against it. ${places
        .slice(0, 20)
        .map(({ detail }) => detail)
        .join(" ")}`,
      { places },
    );
  }
  const [title, applies] = table.titleLines.map(titleOf).filter((line) => line !== "");
  return { id, title: title ?? id, applies: applies ?? "", rules };
}
