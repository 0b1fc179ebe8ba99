import type { UnitSystem } from "../../graph-schema/index.ts";
import type { Comparison } from "../contract/what-if.contract.ts";
import {
  groupDigits,
  massWords,
  moneyWords,
  plural,
  roomWords,
  sureWords,
} from "../plans/words.ts";
import { say, sayHeading, sayWords, terminalWidth } from "./say.ts";
import { renderTable, type TableColumn } from "./table.ts";

type Figure = Comparison["figures"][number];
type Part = Comparison["parts"][number];

const mostParts = 30;

function shown(figure: Figure, value: number | null, units: UnitSystem): string {
  if (value === null) return "unknown";
  if (figure.kind === "money") return moneyWords(value, figure.currency ?? "EUR");
  if (figure.kind === "chance") return sureWords(value);
  if (figure.kind === "count") return groupDigits(value);
  if (figure.kind === "kg") return massWords(value, units);
  if (figure.kind === "litres") return roomWords(value, units);
  return value.toFixed(figure.kind === "index" ? 3 : 1);
}

function changed(figure: Figure, units: UnitSystem): string {
  const { difference } = figure;
  if (difference === null) return "unknown";
  const isExact = figure.kind === "count" || figure.kind === "money";
  const readsAlike = shown(figure, figure.before, units) === shown(figure, figure.after, units);
  if (difference === 0 || (!isExact && readsAlike)) return "same";
  const sign = difference > 0 ? "+" : "−";
  if (figure.kind === "chance") return `${sign}${Math.abs(difference).toFixed(4)}`;
  return `${sign}${shown(figure, Math.abs(difference), units)}`;
}

const figureColumns = (units: UnitSystem): readonly TableColumn<Figure>[] => [
  { header: "Figure", align: "left", flexible: true, cell: ({ figure }) => figure },
  { header: "Before", align: "right", cell: (one) => shown(one, one.before, units) },
  { header: "After", align: "right", cell: (one) => shown(one, one.after, units) },
  { header: "Difference", align: "right", cell: (one) => changed(one, units) },
];

type Listed = NonNullable<Comparison["listed"]>[number];

const listedColumns: readonly TableColumn<Listed>[] = [
  { header: "About", align: "left", flexible: true, cell: ({ what }) => what },
  { header: "Before", align: "left", flexible: true, cell: ({ before }) => before ?? "not listed" },
  { header: "After", align: "left", flexible: true, cell: ({ after }) => after ?? "not listed" },
];

const partColumns: readonly TableColumn<Part>[] = [
  { header: "Part", align: "left", flexible: true, cell: ({ part }) => part },
  { header: "Before", align: "right", cell: ({ before }) => String(before) },
  { header: "After", align: "right", cell: ({ after }) => String(after) },
  {
    header: "Difference",
    align: "right",
    cell: ({ difference }) => (difference > 0 ? `+${difference}` : `−${-difference}`),
  },
];

/** What was imagined, and the figures before and after it; the rest of the answer is that after. */
export function showComparison(
  comparison: Comparison | undefined,
  units: UnitSystem = "metric",
): void {
  if (comparison === undefined) return;
  sayHeading("What if (nothing is written)");
  for (const change of comparison.changes) sayWords(`• ${change}`, "  ");
  for (const notice of comparison.notices) sayWords(`• ${notice}`, "  ");
  say();
  sayWords(comparison.sentence);
  say();
  const differ = comparison.figures.filter((figure) => changed(figure, units) !== "same");
  const same = comparison.figures.length - differ.length;
  if (differ.length > 0) say(renderTable(figureColumns(units), differ, terminalWidth()));
  if (same > 0) {
    const which =
      differ.length === 0 ? `All ${groupDigits(same)} figures` : plural(same, "other figure");
    say(`${which} ${same === 1 ? "stays as it is" : "stay as they are"}.`);
  }
  showRows("What is listed otherwise", listedColumns, comparison.listed ?? []);
  showRows("Pieces that differ", partColumns, comparison.parts);
}

function showRows<R>(
  heading: string,
  columns: readonly TableColumn<R>[],
  rows: readonly R[],
): void {
  if (rows.length === 0) return;
  sayHeading(heading);
  say(renderTable(columns, rows.slice(0, mostParts), terminalWidth()));
  const more = rows.length - mostParts;
  if (more > 0) say(`... and ${groupDigits(more)} more; --json lists them all.`);
}
