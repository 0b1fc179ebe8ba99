/** A column of a printed table: numbers stand right, the one flexible column takes what room is left. */
export interface TableColumn<R> {
  /** Heading, with the unit where there is one: "Cost EUR". */
  readonly header: string;
  readonly align: "left" | "right";
  readonly flexible?: boolean;
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

function widthsFor<R>(
  columns: readonly TableColumn<R>[],
  cells: readonly (readonly string[])[],
  width: number,
): number[] {
  const natural = columns.map((column, at) =>
    Math.max(textWidth(column.header), ...cells.map((row) => textWidth(row[at] ?? ""))),
  );
  const flexible = columns.filter((column) => column.flexible).length;
  const fixed = natural.reduce(
    (sum, size, at) => sum + (columns[at]?.flexible ? 0 : size),
    gap.length * (columns.length - 1),
  );
  const share = Math.max(leastFlexible, Math.floor((width - fixed) / Math.max(1, flexible)));
  return natural.map((size, at) => (columns[at]?.flexible ? Math.min(size, share) : size));
}

/** A table for people: a heading line, a rule, one or more lines per row, no wider than it can help. */
export function renderTable<R>(
  columns: readonly TableColumn<R>[],
  rows: readonly R[],
  width: number,
): string {
  const cells = rows.map((row) => columns.map((column) => plainText(column.cell(row))));
  const widths = widthsFor(columns, cells, width);
  const laid = (texts: readonly string[]): string[] => {
    const wrapped = texts.map((text, at) =>
      columns[at]?.flexible ? wrapWords(text, widths[at] ?? leastFlexible) : [text],
    );
    const height = Math.max(...wrapped.map((lines) => lines.length));
    return Array.from({ length: height }, (_, line) =>
      columns
        .map((column, at) => padded(wrapped[at]?.[line] ?? "", widths[at] ?? 0, column.align))
        .join(gap)
        .trimEnd(),
    );
  };
  const rule = widths.map((size) => "─".repeat(size)).join(gap);
  return [...laid(columns.map((column) => column.header)), rule, ...cells.flatMap(laid)].join("\n");
}
