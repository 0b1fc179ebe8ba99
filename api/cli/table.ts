/** A column of a printed table: numbers stand right, the one flexible column takes what room is left. */
export interface TableColumn<R> {
  /** Heading, with the unit where there is one: "Cost EUR". */
  readonly header: string;
  readonly align: "left" | "right";
  readonly flexible?: boolean;
  /** Left out where the table would be too wide: the highest first. */
  readonly dispensable?: number;
  readonly cell: (row: R) => string;
}

const gap = "  ";
const leastFlexible = 14;

/** Columns of the terminal a text takes: code points, combining marks apart. */
export const textWidth = (text: string): number =>
  [...text.normalize("NFC").replaceAll(/\p{Mn}/gu, "")].length;

/** Words laid in lines no wider than `width`; a longer word is cut. */
export function wrapWords(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).filter((piece) => piece !== "")) {
    let rest = word;
    if (line !== "" && textWidth(line) + 1 + textWidth(rest) <= width) {
      line = `${line} ${rest}`;
      continue;
    }
    if (line !== "") lines.push(line);
    while (textWidth(rest) > width) {
      lines.push([...rest].slice(0, width).join(""));
      rest = [...rest].slice(width).join("");
    }
    line = rest;
  }
  lines.push(line);
  return lines;
}

/** Control characters could drive the terminal: they are shown as spaces. */
export const plainText = (text: string): string => text.replaceAll(/\p{Cc}/gu, " ");

const padded = (text: string, width: number, align: "left" | "right"): string => {
  const space = " ".repeat(Math.max(0, width - textWidth(text)));
  return align === "right" ? space + text : text + space;
};

const longestWord = (text: string): number =>
  Math.max(...text.split(" ").map((word) => textWidth(word)));

/** Least widths of the columns: flexible ones may shrink, the others need their widest cell. */
const leastWidths = <R>(
  columns: readonly TableColumn<R>[],
  cells: readonly (readonly string[])[],
): number[] =>
  columns.map(({ header, flexible }, at) => {
    const widest = Math.max(longestWord(header), ...cells.map((row) => textWidth(row[at] ?? "")));
    return flexible ? Math.min(widest, leastFlexible) : widest;
  });

const tableWidth = (widths: readonly number[]): number =>
  widths.reduce((sum, size) => sum + size, gap.length * (widths.length - 1));

/** Gives what room is left to the flexible columns, none more than its widest cell. */
function widen<R>(
  columns: readonly TableColumn<R>[],
  cells: readonly (readonly string[])[],
  least: readonly number[],
  width: number,
): number[] {
  const widths = [...least];
  const wished = columns.map((column, at) =>
    column.flexible
      ? Math.max(textWidth(column.header), ...cells.map((row) => textWidth(row[at] ?? "")))
      : (least[at] ?? 0),
  );
  for (let room = width - tableWidth(widths); room > 0; room--) {
    const at = widths.findIndex(
      (size, column) =>
        size < (wished[column] ?? 0) &&
        widths.every((other, rival) => other >= size || other >= (wished[rival] ?? 0)),
    );
    if (at < 0) break;
    widths[at] = (widths[at] ?? 0) + 1;
  }
  return widths;
}

/** A table for people: headings, a rule, one or more lines per row, no wider than it can help. */
export function renderTable<R>(
  columns: readonly TableColumn<R>[],
  rows: readonly R[],
  width: number,
): string {
  const cells = rows.map((row) => columns.map((column) => plainText(column.cell(row))));
  const least = leastWidths(columns, cells);
  const dispensable = columns
    .filter((column) => column.dispensable !== undefined)
    .sort((a, b) => (b.dispensable ?? 0) - (a.dispensable ?? 0))[0];
  if (tableWidth(least) > width && dispensable !== undefined) {
    const kept = columns.filter((column) => column !== dispensable);
    return renderTable(kept, rows, width);
  }
  const widths = widen(columns, cells, least, width);
  const laid = (texts: readonly string[], isHeading: boolean): string[] => {
    const wrapped = texts.map((text, at) =>
      columns[at]?.flexible || isHeading ? wrapWords(text, widths[at] ?? leastFlexible) : [text],
    );
    const height = Math.max(...wrapped.map((lines) => lines.length));
    // Headings stand on the rule, cells hang from the row's first line.
    const lineAt = (lines: readonly string[], line: number): string =>
      lines[isHeading ? line - (height - lines.length) : line] ?? "";
    return Array.from({ length: height }, (_, line) =>
      wrapped
        .map((lines, at) =>
          padded(lineAt(lines, line), widths[at] ?? 0, columns[at]?.align ?? "left"),
        )
        .join(gap)
        .trimEnd(),
    );
  };
  const rule = widths.map((size) => "─".repeat(size)).join(gap);
  const heading = laid(
    columns.map((column) => column.header),
    true,
  );
  return [...heading, rule, ...cells.flatMap((texts) => laid(texts, false))].join("\n");
}
