import type { OrderAnswer } from "../contract/order.contract.ts";
import { groupDigits, moneyWords, plural } from "../plans/words.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable, type TableColumn } from "./table.ts";

type Sheet = OrderAnswer["sheets"][number];
type Line = Sheet["lines"][number];

const money = ({ minor, currency }: Sheet["total"]): string => moneyWords(minor, currency);

const columns: readonly TableColumn<Line>[] = [
  { header: "Their code", align: "left", dispensable: 2, cell: (line) => line.supplierCode },
  { header: "Part", align: "left", cell: (line) => line.partNumber },
  { header: "Description", align: "left", flexible: true, cell: (line) => line.description },
  { header: "Maker", align: "left", flexible: true, dispensable: 1, cell: (line) => line.maker },
  {
    header: "Order",
    align: "right",
    cell: (line) =>
      line.packSize === 1
        ? groupDigits(line.pieces)
        : `${line.packs} × ${groupDigits(line.packSize)}`,
  },
  { header: "Price", align: "right", cell: (line) => money(line.packPrice) },
  { header: "Goods", align: "right", cell: (line) => money(line.goods) },
  { header: "Here by", align: "left", cell: (line) => line.arrives ?? "unknown" },
];

/** An order on the terminal: the answer, a sheet per supplier, the parcel's papers, what cannot be had. */
export function showOrder(answer: OrderAnswer, withPapers: boolean): void {
  sayWords(answer.sentence);
  for (const sheet of answer.sheets) {
    sayHeading(`${sheet.supplier.name}: ${money(sheet.total)}`);
    sayWords(
      [sheet.contact, sheet.place].filter((text) => text !== "").join(", ") ||
        "No contact is known.",
    );
    say(renderTable(columns, sheet.lines, terminalWidth()));
    sayWords(
      `Goods ${money(sheet.goods)}, duty ${money(sheet.duty)}, delivery ${money(sheet.delivery)}. ${sheet.words}.`,
    );
    const spare = sheet.lines.filter((line) => line.spare > 0);
    if (spare.length > 0) {
      sayWords(
        `Beyond the kit, for packs and least orders: ${spare.map((line) => `${plural(line.spare, "piece", "pieces")} of ${line.partNumber}`).join(", ")}.`,
      );
    }
    if (!withPapers) continue;
    say("For the parcel's papers:");
    for (const { parcel } of sheet.lines) sayWords(`• ${parcel}`, "  ");
  }
  if (answer.unmet.length > 0) {
    sayHeading(`Cannot be had (${answer.unmet.length})`);
    for (const { part, description, pieces, words } of answer.unmet) {
      sayWords(
        `• ${plural(pieces, "piece", "pieces")} of ${description === "" ? part.name : `${description}, ${part.name}`}: ${words}`,
        "  ",
      );
    }
  }
  showComparison(answer.comparison);
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
