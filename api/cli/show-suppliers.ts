import type { SuppliersAnswer } from "../contract/suppliers.contract.ts";
import { groupDigits } from "../plans/words.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable, type TableColumn } from "./table.ts";

type Row = SuppliersAnswer["suppliers"][number];
type Point = SuppliersAnswer["curve"][number];
type SolePart = SuppliersAnswer["singleSource"][number];
type UnsoldPart = SuppliersAnswer["unsold"][number];
type Cover = SuppliersAnswer["least"];

const mostShown = 15;

const names = (list: readonly { readonly name: string }[]): string =>
  list.map(({ name }) => name).join(", ");

const supplierColumns: readonly TableColumn<Row>[] = [
  { header: "Supplier", align: "left", flexible: true, cell: (row) => row.supplier.name },
  { header: "Items whole", align: "right", cell: (row) => groupDigits(row.gearWhole) },
  { header: "Items partly", align: "right", cell: (row) => groupDigits(row.gearPartly) },
  { header: "Parts", align: "right", cell: (row) => groupDigits(row.parts) },
  { header: "Only source", align: "right", cell: (row) => groupDigits(row.onlySourceOf) },
  { header: "Contact", align: "left", flexible: true, cell: (row) => row.contact || "unknown" },
  { header: "Place", align: "left", flexible: true, dispensable: 1, cell: (row) => row.place },
];

/** A figure, with its bound where it is not proven. */
const reached = ({ reached: found, status, upperBound }: Point["parts"]): string =>
  status === "optimal"
    ? groupDigits(found)
    : `${groupDigits(found)} (≤ ${groupDigits(upperBound)})`;

const curveColumns: readonly TableColumn<Point>[] = [
  { header: "Best", align: "right", cell: (point) => String(point.count) },
  { header: "Items whole", align: "right", cell: (point) => reached(point.gearWhole) },
  {
    header: "Still so without any one",
    align: "right",
    cell: (point) => groupDigits(point.gearWhole.withoutAnyOne),
  },
  { header: "Items partly", align: "right", cell: (point) => reached(point.gearPartly) },
  { header: "Parts", align: "right", cell: (point) => reached(point.parts) },
  {
    header: "For most items whole",
    align: "left",
    flexible: true,
    cell: (point) => names(point.gearWhole.suppliers),
  },
];

const stakeColumns: readonly TableColumn<SolePart | UnsoldPart>[] = [
  { header: "Part", align: "left", flexible: true, cell: ({ part }) => part.name },
  { header: "Description", align: "left", flexible: true, cell: (row) => row.description },
  { header: "Tier", align: "left", cell: (row) => row.tier },
  { header: "Stops", align: "right", cell: (row) => groupDigits(row.itemsStopped) },
  {
    header: "From",
    align: "left",
    flexible: true,
    cell: (row) =>
      "supplier" in row
        ? row.supplier.name
        : row.soldInside.length > 0
          ? `nobody singly; inside ${row.soldInside.join(", ")}`
          : "nobody",
  },
];

const coverWords = (cover: Cover, unit: string): string => {
  const exact =
    cover.status === "optimal"
      ? `proven least ${unit} ${cover.cost}`
      : `best found ${unit} ${cover.cost}; none is below ${cover.lowerBound} (gap ${Math.round(100 * cover.gap)} %)`;
  return `${names(cover.suppliers)} (${exact}). Taking the widest step by step: ${unit} ${cover.greedy.cost}.`;
};

/** Suppliers on the terminal: the answer, each supplier, the best few, the least for all, parts at stake. */
export function showSuppliers(answer: SuppliersAnswer): void {
  showComparison(answer.comparison);
  sayWords(answer.sentence);
  sayWords(answer.counterweight);
  const width = terminalWidth();
  if (answer.suppliers.length > 0) {
    sayHeading("Each supplier");
    say(renderTable(supplierColumns, answer.suppliers, width));
    sayWords(
      `Of ${groupDigits(answer.gear.items)} fitted items and ${groupDigits(answer.gear.parts)} parts that can be replaced at sea. Whole: it offers all of the item's parts; partly: some of them, those whole included.`,
    );
  }
  if (answer.curve.length > 0) {
    sayHeading("The best few together");
    say(renderTable(curveColumns, answer.curve, width));
    sayHeading("The least that sell everything on sale");
    sayWords(coverWords(answer.least, "number"));
    if (answer.leastWeighted !== undefined) {
      sayWords(`By weight: ${coverWords(answer.leastWeighted, "total")}`);
    }
  }
  const parts = (title: string, rows: readonly (SolePart | UnsoldPart)[]): void => {
    if (rows.length === 0) return;
    sayHeading(title);
    say(renderTable(stakeColumns, rows.slice(0, mostShown), width));
    if (rows.length > mostShown) {
      sayWords(`and ${groupDigits(rows.length - mostShown)} more: --json lists them all.`);
    }
  };
  parts(`Parts only one supplier sells (${answer.singleSource.length})`, answer.singleSource);
  parts(`Parts nobody sells (${answer.unsold.length})`, answer.unsold);
  if (answer.overlaps.length > 0) {
    sayHeading("Suppliers that sell the same");
    for (const pair of answer.overlaps.slice(0, mostShown)) {
      sayWords(
        `• ${pair.a.name} and ${pair.b.name}: ${groupDigits(pair.shared)} parts, ${Math.round(100 * pair.jaccard)} % of what either sells`,
        "  ",
      );
    }
  }
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
