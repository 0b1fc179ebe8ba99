import type { Comparison } from "../contract/what-if.contract.ts";
import { groupDigits, moneyWords, sureWords } from "../plans/words.ts";
import { say, sayHeading, sayWords, terminalWidth } from "./say.ts";
import { renderTable, type TableColumn } from "./table.ts";

type Figure = Comparison["figures"][number];
type Part = Comparison["parts"][number];

const mostParts = 30;

function shown(figure: Figure, value: number | null): string {
  if (value === null) return "unknown";
  if (figure.kind === "money") return moneyWords(value, figure.currency ?? "EUR");
  if (figure.kind === "chance") return sureWords(value);
  if (figure.kind === "count") return groupDigits(value);
  return value.toFixed(figure.kind === "index" ? 3 : 1);
}

function changed(figure: Figure): string {
  const { difference } = figure;
  if (difference === null) return "unknown";
  const nothing = figure.kind === "count" || figure.kind === "money" ? 0 : 5e-5;
  if (Math.abs(difference) <= nothing) return "same";
  const sign = difference > 0 ? "+" : "−";
  if (figure.kind === "chance") return `${sign}${Math.abs(difference).toFixed(4)}`;
  return `${sign}${shown(figure, Math.abs(difference))}`;
}

const figureColumns: readonly TableColumn<Figure>[] = [
  { header: "Figure", align: "left", flexible: true, cell: ({ figure }) => figure },
  { header: "Before", align: "right", cell: (one) => shown(one, one.before) },
  { header: "After", align: "right", cell: (one) => shown(one, one.after) },
  { header: "Difference", align: "right", cell: changed },
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
export function showComparison(comparison: Comparison | undefined): void {
  if (comparison === undefined) return;
  sayHeading("What if (nothing is written)");
  for (const change of comparison.changes) sayWords(`• ${change}`, "  ");
  for (const notice of comparison.notices) sayWords(`• ${notice}`, "  ");
  say();
  sayWords(comparison.sentence);
  say();
  say(renderTable(figureColumns, comparison.figures, terminalWidth()));
  if (comparison.parts.length === 0) return;
  sayHeading("Pieces to buy that differ");
  say(renderTable(partColumns, comparison.parts.slice(0, mostParts), terminalWidth()));
  const more = comparison.parts.length - mostParts;
  if (more > 0) say(`... and ${groupDigits(more)} more; --json lists them all.`);
}
