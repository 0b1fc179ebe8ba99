import { readTable } from "../../importers/index.ts";
import { Problem, type ProblemPlace } from "../errors/problem.ts";
import { plural } from "./words.ts";

/** One row of a list of one's own, as its reader sees it. */
export interface OwnRow<C extends string> {
  /** Text of a column, trimmed; empty where the list has no such column. */
  readonly cell: (column: C) => string;
  /** Notes what is wrong with a cell; reading goes on, and the whole list is refused at the end. */
  readonly fault: (column: C, rule: string, remedy: string) => void;
}

/** What a list is: its columns, each with the headers that name it, and how it is spoken of. */
export interface OwnListKind<C extends string> {
  /** The first header is the one messages name. */
  readonly columns: Readonly<Record<C, readonly string[]>>;
  readonly needed: readonly C[];
  /** "The suppliers' terms", as a message begins. */
  readonly name: string;
  /** What did not happen for its faults: "nothing was ordered". */
  readonly withheld: string;
}

const mostTold = 20;
const plain = (header: string): string => header.trim().toLowerCase();

/**
 * Reads a list people write themselves (CSV, as the importer reads it): title lines, a header with the columns in any
 * order, a row at a time. Errors: `file-empty`, `file-binary`; `input-invalid` for a missing column, or with every
 * fault of every row: line, column, rule, value received and remedy.
 */
export function readOwnList<C extends string, R>(
  content: Uint8Array | string,
  { columns, needed, name, withheld }: OwnListKind<C>,
  read: (row: OwnRow<C>) => R,
): { readonly titles: readonly string[]; readonly rows: readonly R[] } {
  const keys = Object.keys(columns) as C[];
  const isNamed = (key: C, header: string): boolean =>
    columns[key].some((own) => plain(own) === plain(header));
  const { table, rows } = readTable(content, {
    isKnownName: (cell) => keys.some((key) => isNamed(key, cell)),
  });
  const at = new Map(
    keys.map((key) => [key, table.header.findIndex((header) => isNamed(key, header))]),
  );
  const columnOf = (key: C): number => at.get(key) ?? -1;
  const missing = needed.filter((key) => columnOf(key) < 0);
  if (missing.length > 0) {
    const others = keys.filter((key) => !needed.includes(key)).map((key) => columns[key][0]);
    throw new Problem(
      "input-invalid",
      `${name} must have the columns ${needed.map((key) => columns[key][0]).join(", ")}; lacking ${missing.map((key) => columns[key][0]).join(", ")} (the header read: ${table.header.join(", ")}). Name them in the header row; the others may be left out: ${others.join(", ")}.`,
    );
  }
  const places: ProblemPlace[] = [];
  const found = rows.map((cells, index): R => {
    const line = table.lineOf(index);
    for (const { rule, value, remedy } of table.faults.get(index) ?? []) {
      places.push({
        pointer: `/line/${line}`,
        detail: `line ${line}: ${rule}; received ${value}. ${remedy}`,
      });
    }
    const cell = (key: C): string => (cells[columnOf(key)] ?? "").trim();
    return read({
      cell,
      fault: (key, rule, remedy) => {
        places.push({
          pointer: `/line/${line}/${key}`,
          detail: `line ${line}, ${table.header[columnOf(key)] ?? columns[key][0]}: ${rule}; received "${cell(key)}". ${remedy}`,
        });
      },
    });
  });
  if (places.length > 0) {
    throw new Problem(
      "input-invalid",
      `${name} has ${plural(places.length, "fault")}; ${withheld}. ${places
        .slice(0, mostTold)
        .map(({ detail }) => detail)
        .join(" ")}`,
      { places },
    );
  }
  return { titles: table.titleLines, rows: found };
}
