import { Button } from "react-aria-components";
import type { ImportAnswer, ImportOptions } from "../../../api/contract/import.contract.ts";
import { plural, wholeText } from "../../components/figures.ts";
import { Answered, Notices } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { saveFile } from "../../data/save-file.ts";
import { ColumnTable } from "./column-table.tsx";
import { FileSettings } from "./file-settings.tsx";
import { recordName } from "./property-options.ts";

/** read = accepted + rejected + skipped, as a strip whose parts have their size and name. */
function RowStrip({ rows }: { readonly rows: ImportAnswer["rows"] }) {
  const parts = [
    { name: "accepted", count: rows.accepted },
    { name: "rejected", count: rows.rejected },
    { name: "skipped", count: rows.skipped },
  ];
  return (
    <dl className="row-strip">
      <div className="strip-part strip-read">
        <dt>rows read</dt>
        <dd>{wholeText(rows.read)}</dd>
      </div>
      {parts.map((part, index) => (
        <div key={part.name} className={`strip-part strip-${part.name}`}>
          <dt>
            <span aria-hidden="true">{index === 0 ? "= " : "+ "}</span>
            {part.name}
          </dt>
          <dd>{wholeText(part.count)}</dd>
        </div>
      ))}
    </dl>
  );
}

type Fault = ImportAnswer["faults"][number];
type RecordCount = ImportAnswer["records"][number];

const faultColumns: readonly Column<Fault>[] = [
  { id: "line", name: "Line", kind: "number", cell: ({ line }) => line },
  { id: "column", name: "Column", cell: ({ column }) => column },
  {
    id: "value",
    name: "Value",
    cell: ({ value }) => <q className="cell-value">{value}</q>,
    value: ({ value }) => value,
  },
  { id: "rule", name: "Rule", kind: "wordy", cell: ({ rule }) => rule },
  { id: "remedy", name: "Remedy", kind: "wordy", cell: ({ remedy }) => remedy },
  {
    id: "row",
    name: "Row",
    cell: ({ severity }) => (
      <span className={`fault-${severity}`}>
        {severity === "rejected" ? "✕ rejected" : "▵ noticed"}
      </span>
    ),
    value: ({ severity }) => severity,
  },
];

const counted = (
  id: "created" | "changed" | "unchanged" | "conflict",
  name: string,
): Column<RecordCount> => ({
  id,
  name,
  kind: "number",
  cell: (row) =>
    id === "conflict" && row.conflict > 0 ? (
      <span className="doubt">{wholeText(row.conflict)}</span>
    ) : (
      wholeText(row[id])
    ),
  value: (row) => row[id],
});

const recordColumns: readonly Column<RecordCount>[] = [
  { id: "label", name: "Record", kind: "name", cell: ({ label }) => recordName(label) },
  counted("created", "New"),
  counted("changed", "Changed"),
  counted("unchanged", "Unchanged"),
  counted("conflict", "In conflict"),
];

/** What a file would do, or has done: rows, records, columns, faults, changes. */
export function Proposal({
  answer,
  options,
  waiting,
  onOptions,
  onCommit,
}: {
  readonly answer: ImportAnswer;
  readonly options: ImportOptions;
  readonly waiting: boolean;
  readonly onOptions: (options: ImportOptions) => void;
  readonly onCommit: () => void;
}) {
  const faults = answer.faults;
  const rejectedCsv = answer.rejectedCsv;
  return (
    <>
      <Answered sentence={answer.sentence} waiting={waiting}>
        <p className="file-facts">
          {answer.file.name}: {answer.file.encoding}, columns parted by {answer.file.delimiter}
          {answer.file.titleLines > 0
            ? `, ${plural(answer.file.titleLines, "title line")} passed over`
            : ""}
        </p>
      </Answered>
      <Notices notices={answer.notices} />
      <RowStrip rows={answer.rows} />
      {!answer.committed && (
        <div className="deed">
          <Button
            className="act"
            onPress={onCommit}
            isDisabled={waiting || answer.rows.accepted === 0}
          >
            Take in {plural(answer.rows.accepted, "row")}
          </Button>
          <span className="deed-note">
            Nothing is written until you do; it can be undone whole.
          </span>
        </div>
      )}

      <section aria-labelledby="columns-title">
        <h2 id="columns-title">Columns</h2>
        {!answer.committed && (
          <FileSettings answer={answer} options={options} onOptions={onOptions} />
        )}
        <ColumnTable
          columns={answer.columns}
          isFixed={answer.committed}
          onMap={(header, property) =>
            onOptions({ ...options, mapping: { ...options.mapping, [header]: property } })
          }
        />
      </section>

      {answer.faultsTotal > 0 && (
        <section aria-labelledby="faults-title">
          <h2 id="faults-title">{plural(answer.faultsTotal, "thing")} to look at</h2>
          {rejectedCsv !== null && (
            <p>
              <Button
                className="quiet"
                onPress={() => saveFile(`rejected-${answer.file.name}`, "text/csv", rejectedCsv)}
              >
                Download the rejected rows
              </Button>{" "}
              Correct them there and bring that file in again.
            </p>
          )}
          <DataTable
            caption="Faults by line"
            className="tall"
            sorts
            columns={faultColumns}
            rows={faults}
            rowKey={(fault) => `${fault.line} ${fault.column} ${fault.rule} ${fault.value}`}
          />
          {answer.faultsTotal > faults.length && (
            <p className="said">
              The first {faults.length} of {wholeText(answer.faultsTotal)} are shown.
            </p>
          )}
        </section>
      )}

      <section aria-labelledby="records-title">
        <h2 id="records-title">{answer.committed ? "What it changed" : "What it would change"}</h2>
        <DataTable
          caption="Records by kind"
          columns={recordColumns}
          rows={answer.records}
          rowKey={({ label }) => label}
        />
        {answer.changes.length > 0 && (
          <details>
            <summary>
              {answer.changesTotal > answer.changes.length
                ? `The first ${answer.changes.length} of ${wholeText(answer.changesTotal)} changes`
                : plural(answer.changesTotal, "change")}{" "}
              in words
            </summary>
            <ul className="changes">
              {answer.changes.map((change, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: changes have no id and never reorder
                <li key={index}>
                  <span className="change-kind">{change.kind}</span> {change.subject}
                  {change.before !== undefined && (
                    <>
                      {" "}
                      from <q>{change.before}</q>
                    </>
                  )}
                  {change.after !== undefined && (
                    <>
                      {" "}
                      {change.before === undefined ? "as" : "to"} <q>{change.after}</q>
                    </>
                  )}
                </li>
              ))}
            </ul>
          </details>
        )}
      </section>
    </>
  );
}
