import type { DueAnswer } from "../contract/stock.contract.ts";
import { say, sayCautions, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { renderTable, type TableColumn } from "./table.ts";

type Lot = DueAnswer["lots"][number];
type Service = DueAnswer["services"][number];

const lotColumns: readonly TableColumn<Lot>[] = [
  { header: "Last day", align: "left", cell: (row) => row.lastDay ?? "no date" },
  {
    header: "State",
    align: "left",
    cell: (row) => `${row.state}${row.safety ? " (safety)" : ""}`,
  },
  { header: "Pieces", align: "right", cell: (row) => String(row.quantity) },
  { header: "Part", align: "left", flexible: true, cell: (row) => row.part.name },
  { header: "Description", align: "left", flexible: true, cell: (row) => row.description },
  {
    header: "Where",
    align: "left",
    flexible: true,
    cell: (row) => `${row.vessel}: ${row.place}`,
  },
];

const serviceColumns: readonly TableColumn<Service>[] = [
  {
    header: "Due",
    align: "left",
    cell: (row) => `${row.dueOn ?? "not known"}${row.overdue ? " !" : ""}`,
  },
  { header: "Times", align: "right", cell: (row) => String(row.times) },
  {
    header: "Item",
    align: "left",
    flexible: true,
    cell: (row) => `${row.item.name} (${row.vessel})`,
  },
  { header: "Service", align: "left", flexible: true, cell: (row) => row.service.name },
  {
    header: "Uses up",
    align: "left",
    flexible: true,
    cell: (row) =>
      row.consumes
        .map(
          ({ part, quantity, aboard, handled, enough }) =>
            `${quantity} ${part.name}${handled ? " (handled)" : enough ? "" : ` (${aboard} aboard: short)`}`,
        )
        .join("; ") || "nothing",
  },
];

/** What falls due on the terminal: lots, services with what they use up, cautions. */
export function showDue(answer: DueAnswer): void {
  sayWords(answer.sentence);
  const width = terminalWidth();
  if (answer.lots.length > 0) {
    sayHeading("Out of date, or soon");
    say(renderTable(lotColumns, answer.lots, width));
  }
  if (answer.services.length > 0) {
    sayHeading("Services");
    say(renderTable(serviceColumns, answer.services, width));
    sayWords("! is due already, or nobody knows when it was last done.");
  }
  showComparison(answer.comparison);
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
