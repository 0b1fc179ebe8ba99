import { Problem } from "../../api/errors/problem.ts";
import { type ListKind, type ListKindName, listKindNames, listKinds } from "../list-kinds.ts";
import type { Table } from "../reading/read-table.ts";
import { targets } from "../targets.ts";
import { type Assignment, assignColumns, has, targetsOf } from "./assign-columns.ts";
import { FieldLikenesses, languageOf } from "./field-likenesses.ts";
import { fixedColumns } from "./fixed-columns.ts";
import { headerForms } from "./header-likeness.ts";
import { isProblemColumn } from "./problem-columns.ts";

/** How one column of a file is understood. */
export interface ColumnMatch {
  readonly column: number;
  readonly header: string;
  /** `Label.property` or `TYPE.property`; undefined = kept with its row, not interpreted. */
  readonly target: string | undefined;
  /** 0 to 1; 1 for a match by hand. */
  readonly confidence: number;
  readonly byHand: boolean;
  /** Columns this program added itself to rejected rows, passed over. */
  readonly ignored: boolean;
}

export interface Matching {
  readonly kind: ListKindName;
  readonly columns: readonly ColumnMatch[];
  /** Columns that are known but not read, since a field they hang on is missing. */
  readonly orphans: readonly { readonly header: string; readonly needs: string }[];
  /** Kinds the list could also be, best first, with the sum of confidences of their columns. */
  readonly kindScores: readonly { readonly kind: ListKindName; readonly score: number }[];
}

export interface MatchOptions {
  readonly listKind?: string | undefined;
  /** Header text to `Label.property`, or null to leave the column uninterpreted. */
  readonly mapping?: Readonly<Record<string, string | null>> | undefined;
  /** Supplier of the whole file: its list needs no column that names one. */
  readonly supplier?: string | undefined;
}

/** Kinds that need so little that a column or two fit almost any table. */
const easilyFit: ReadonlySet<ListKindName> = new Set([
  "suppliers",
  "lockers",
  "functions",
  "crossings",
]);

/** Whether so few columns are understood that the kind is no more than a guess. */
const isThin = (kind: ListKind, { chosen }: Assignment, width: number): boolean =>
  (kind.name === "flat" && width >= 3 && chosen.size < 2) ||
  (easilyFit.has(kind.name) && width >= 4 && (chosen.size < 2 || chosen.size * 4 < width));

const missingNeeds = (
  kind: ListKind,
  assignment: Assignment,
  given: ReadonlySet<string>,
): readonly string[] =>
  kind.needs.filter((need) => !need.split("|").some((id) => given.has(id) || has(assignment, id)));

/**
 * What kind of list a table is and what each column holds, from the names the schema declares. The kind whose
 * columns match best in sum wins, of equals the one with fewer fields; a mapping by hand overrides.
 * Throws `columns-unmatched` if no kind fits, `input-invalid` for a mapping that names nothing.
 */
export function matchColumns(
  table: Pick<Table, "header" | "firstOfName">,
  options: MatchOptions = {},
): Matching {
  const fixed = fixedColumns(table, options.mapping ?? {});
  const forms = table.header.map((header, column) => {
    const repeated = table.firstOfName[column] ?? column;
    return headerForms(repeated === column ? header : (table.header[repeated] ?? header));
  });
  const ignored = table.header.map((header) => isProblemColumn(header));
  ignored.forEach((isIgnored, column) => {
    if (isIgnored) fixed.set(column, undefined);
  });
  const given = new Set(options.supplier === undefined ? [] : ["Supplier.name"]);
  const wanted = options.listKind;
  if (wanted !== undefined && !listKindNames.some((name) => name === wanted)) {
    throw new Problem(
      "input-invalid",
      `The kind of list must be one of ${listKindNames.join(", ")}; received "${wanted}". Choose one, or leave it out to have it found.`,
    );
  }
  const likenesses = new FieldLikenesses(languageOf(forms));
  const scored = listKindNames
    .filter((name) => wanted === undefined || name === wanted)
    .map((name) => {
      const kind = listKinds[name];
      const assignment = assignColumns(kind, forms, fixed, given, likenesses);
      const outside = [...fixed.values()].filter(
        (target) => target !== undefined && !targetsOf(kind).includes(target),
      ).length;
      const isGuess = wanted === undefined && isThin(kind, assignment, table.header.length);
      return { kind, assignment, missing: missingNeeds(kind, assignment, given), outside, isGuess };
    });
  const fitting = scored
    .filter(({ missing, outside, isGuess }) => missing.length === 0 && outside === 0 && !isGuess)
    .sort(
      (a, b) =>
        b.assignment.score - a.assignment.score ||
        targetsOf(a.kind).length - targetsOf(b.kind).length,
    );
  const best = fitting[0];
  if (best === undefined)
    throw unmatched(
      table.header,
      wanted,
      scored.filter(({ kind, isGuess }) => !isGuess || kind.name === "flat"),
    );
  const columns = table.header.map((header, column): ColumnMatch => {
    const candidate = best.assignment.chosen.get(column);
    return {
      column,
      header,
      target: candidate?.target.id,
      confidence: candidate === undefined ? 0 : Math.round(candidate.confidence * 100) / 100,
      byHand: fixed.has(column) && ignored[column] !== true,
      ignored: ignored[column] === true,
    };
  });
  return {
    kind: best.kind.name,
    columns,
    orphans: [...(best.assignment.orphans ?? [])].map(([column, needs]) => ({
      header: table.header[column] ?? "",
      needs,
    })),
    kindScores: fitting.map(({ kind, assignment }) => ({
      kind: kind.name,
      score: assignment.score,
    })),
  };
}

function unmatched(
  header: readonly string[],
  wanted: string | undefined,
  scored: readonly { kind: ListKind; assignment: Assignment; missing: readonly string[] }[],
): Problem {
  const nearest = [...scored].sort(
    (a, b) => a.missing.length - b.missing.length || b.assignment.score - a.assignment.score,
  )[0];
  const lacks = (nearest?.missing ?? [])
    .map((need) => {
      const target = targets.get(need.split("|")[0] ?? need);
      return `${need} (${target?.meaning ?? "?"}; for example "${target?.names[0] ?? need}")`;
    })
    .join(", ");
  const asKind = wanted ?? nearest?.kind.name ?? "flat";
  const shown = header.slice(0, 12).join(", ") + (header.length > 12 ? ", …" : "");
  return new Problem(
    "columns-unmatched",
    `A list must have the columns of its kind; read as "${asKind}" it lacks ${lacks || "further columns that are understood, or that fit the mapping"}. The file has: ${shown}. ${remedyFor(header, nearest?.missing ?? [])}`,
    { facts: { header: [...header], listKind: asKind, missing: [...(nearest?.missing ?? [])] } },
  );
}

/** What to do about a table whose columns do not fit: names to add, a column to map, a delimiter to give. */
function remedyFor(header: readonly string[], missing: readonly string[]): string {
  const wanted = missing[0]?.split("|")[0] ?? "Part.partNumber";
  const column = header.find((name) => !/[="\\]/.test(name)) ?? "Column 1";
  const [first = ""] = header;
  if (header.length === 1) {
    return `Rename the column, map it by hand (--map "${column}=${wanted}"), or, if all stands in one column, give the delimiter: comma, semicolon, tab or pipe (--delimiter).`;
  }
  const names =
    header.some((name) => /^\W*\d/.test(name)) || first.length > 40
      ? " If this line holds data, write a line of column names above it."
      : "";
  return `Rename a column, or map one by hand, such as --map "${column}=${wanted}".${names}`;
}
