import { listKinds } from "../list-kinds.ts";
import { gearWords } from "../matching/gear-words.ts";
import type { ColumnMatch, Matching } from "../matching/match-columns.ts";
import { normaliseHeader } from "../normalise-header.ts";
import type { Table } from "../reading/read-table.ts";
import type { ImportNotice } from "../row-fault.ts";
import { targets } from "../targets.ts";

/** What there is to say of how columns were understood: those left unread, and those taken for want of a plainer one. */
export function matchingNotices(matching: Matching, table: Table): ImportNotice[] {
  return [...orphanNotices(matching, table), ...standInNotices(matching, table)];
}

/** Columns that are known but cannot be read, since one they hang on is missing; one notice per missing one. */
function orphanNotices({ orphans }: Matching, table: Table): ImportNotice[] {
  const groups = new Map<string, string[]>();
  for (const { header, needs } of orphans)
    groups.set(needs, [...(groups.get(needs) ?? []), header]);
  return [...groups].map(([needs, headers]) => ({
    code: "column-orphaned",
    line: table.headerLine,
    column: undefined,
    text: `${headers.map((header) => `“${header}”`).join(", ")}: ${orphanTexts[needs] ?? `a column for ${needs} is missing.`}`,
    count: headers.length,
  }));
}

/** Columns whose name may mean a name as well as a number, taken for the number since nothing else is one. */
function standInNotices({ kind, columns }: Matching, table: Table): ImportNotice[] {
  const partWords = targets.get("Part.description")?.names ?? [];
  const isGuess = ({ byHand, target, header }: ColumnMatch): boolean => {
    // In a list of pairs "part" can only be a number.
    if (byHand || listKinds[kind].pairsParts) return false;
    const name = normaliseHeader(header);
    if (target === "Part.partNumber") return partWords.includes(name);
    return target === "Model.designation" && gearWords.has(name);
  };
  return columns.filter(isGuess).map(({ header, target }) => ({
    code: target === "Part.partNumber" ? "part-as-number" : "gear-as-model",
    line: table.headerLine,
    column: header,
    text:
      target === "Part.partNumber"
        ? "No column is plainly one of part numbers, so this one was taken for it: parts are told apart by what it says. Add the makers' numbers in a column of their own if it holds names."
        : "No column is plainly one of models, so this one was taken for the gear's model. Add a column with the makers' designations if it says something else.",
    count: 1,
  }));
}

/** What a notice says about a column that is known but hangs on one that is missing, by the missing one. */
const orphanTexts: Readonly<Record<string, string>> = {
  "Supplier.name":
    "a price, or another word of an offer, needs its supplier, and no column names one; kept with its rows, not interpreted. Add a column with the supplier, map one by hand, or say who the supplier of the whole file is (--supplier).",
  "Model.designation":
    "what a model takes, or where it is fitted, needs a column that names the model; kept with its rows, not interpreted. Add a column with the model, or map one by hand.",
  "Part.partNumber":
    "this needs a column with part numbers; kept with its rows, not interpreted. Add part numbers, or map a column by hand.",
  "RequiredFunction.name":
    "this needs a column that names the function the gear serves; kept with its rows, not interpreted.",
  "StockLot.quantity":
    "a place needs a column that says how many are kept there; kept with its rows, not interpreted. Add a column with the quantity aboard, or map one by hand.",
};
