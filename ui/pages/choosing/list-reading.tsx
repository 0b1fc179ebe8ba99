import type { ListReading } from "../../../api/contract/what-if.contract.ts";
import { plural } from "../../components/figures.ts";
import { Notices } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";

type Fault = ListReading["faults"][number];
type FileColumn = ListReading["columns"][number];

const columnColumns: readonly Column<FileColumn>[] = [
  {
    id: "header",
    name: "In the list",
    kind: "name",
    className: "name-wraps",
    cell: ({ header, column, sample }) => (
      <>
        {header === "" ? `column ${column + 1}` : header}
        <span className="sample">{sample.slice(0, 3).join(" · ")}</span>
      </>
    ),
    value: ({ header }) => header,
  },
  {
    id: "meaning",
    name: "Understood as",
    kind: "wordy",
    cell: ({ property, meaning }) =>
      property === null ? (
        <span className="doubt">not understood; left out</span>
      ) : (
        (meaning ?? property)
      ),
    value: ({ property, meaning }) => meaning ?? property,
  },
];

const faultColumns: readonly Column<Fault>[] = [
  { id: "line", name: "Line", kind: "number", cell: ({ line }) => line },
  { id: "column", name: "Column", cell: ({ column }) => (column === "" ? "the row" : column) },
  { id: "value", name: "Value", cell: ({ value }) => <q className="cell-value">{value}</q> },
  {
    id: "why",
    name: "Why it could not be read, and what to do",
    kind: "wordy",
    cell: ({ rule, remedy }) => `${rule} ${remedy}`,
  },
];

/** What was understood of a list that came with a typed make: a sentence, its columns, the rows that could not be read. */
export function ListReadingShown({ reading }: { readonly reading: ListReading }) {
  const { model, list, sentence, columns, faults, faultsTotal, notices } = reading;
  return (
    <div className="list-reading">
      <p role="status">{sentence}</p>
      {faults.length > 0 && (
        <>
          <DataTable
            caption={`Rows of the ${list} list of ${model} that could not be read`}
            columns={faultColumns}
            rows={faults}
            rowKey={({ line, column, rule }) => `${line} ${column} ${rule}`}
          />
          {faultsTotal > faults.length && (
            <p className="said">
              The first {faults.length} of {plural(faultsTotal, "fault")} are shown.
            </p>
          )}
        </>
      )}
      <Notices notices={notices} />
      <details>
        <summary>
          How its {plural(columns.length, "column")} {columns.length === 1 ? "was" : "were"}{" "}
          understood
        </summary>
        <DataTable
          caption={`Columns of the ${list} list of ${model}`}
          columns={columnColumns}
          rows={columns}
          rowKey={({ column }) => String(column)}
        />
      </details>
    </div>
  );
}
