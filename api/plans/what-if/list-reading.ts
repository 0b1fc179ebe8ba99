import type { ListReading } from "../../contract/what-if.contract.ts";
import { reportProposal } from "../import/report-proposal.ts";
import { plural } from "../words.ts";
import type { TypedList } from "./typed-lists.ts";

const mostFaults = 50;

/** What was understood of a list that came with a typed model: its columns, and each row that could not be read. */
export function listReading(list: TypedList, model: string): ListReading {
  const { kind, proposal, lineInList, columnsInFront } = list;
  const report = reportProposal(
    proposal,
    { name: `${kind} list`, bytes: new Uint8Array(), sha256: "" },
    true,
  );
  const { rows, faultsTotal } = report;
  return {
    model,
    list: kind,
    sentence: readWords(list, model),
    columns: report.columns
      .filter(({ column }) => column >= columnsInFront)
      .map((column) => ({ ...column, column: column.column - columnsInFront })),
    rows,
    faults: report.faults
      .slice(0, mostFaults)
      .map((fault) => ({ ...fault, line: lineInList(fault.line) })),
    faultsTotal,
    notices: report.notices,
  };
}

function readWords({ kind, proposal, columnsInFront }: TypedList, model: string): string {
  const { rows, matching } = proposal;
  const own = matching.columns.filter(
    ({ column, ignored }) => column >= columnsInFront && !ignored,
  );
  const unknown = own.filter(({ target }) => target === undefined);
  const refused = rows.rejected === 0 ? "" : `; ${plural(rows.rejected, "row")} could not be read`;
  const aside = rows.skipped === 0 ? "" : `; ${plural(rows.skipped, "row")} passed over`;
  const columns =
    unknown.length === 0
      ? "every column was understood"
      : `not understood, and left out: ${unknown.map(({ header, column }) => (header === "" ? `column ${column - columnsInFront + 1}` : `"${header}"`)).join(", ")}`;
  const many =
    rows.read === 1 && rows.accepted === 1
      ? "its one row"
      : rows.accepted === rows.read
        ? `all ${rows.read} rows`
        : `${rows.accepted} of ${plural(rows.read, "row")}`;
  return `Of the ${kind} list of ${model}, ${many} ${rows.accepted === 1 ? "is" : "are"} taken${refused}${aside}; ${columns}.`;
}
