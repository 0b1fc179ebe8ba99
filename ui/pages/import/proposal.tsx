import { Button } from "react-aria-components";
import type { ImportAnswer, ImportOptions } from "../../../api/contract/import.contract.ts";
import { plural, wholeText } from "../../components/figures.ts";
import { Answered, Notices } from "../../components/notice.tsx";
import { ScrollTable } from "../../components/scroll-table.tsx";
import { ColumnTable } from "./column-table.tsx";
import { FileSettings } from "./file-settings.tsx";
import { recordName } from "./property-options.ts";

const download = (name: string, text: string) => {
  const link = document.createElement("a");
  const address = URL.createObjectURL(new Blob([text], { type: "text/csv;charset=utf-8" }));
  link.href = address;
  link.download = name;
  link.click();
  window.setTimeout(() => URL.revokeObjectURL(address), 10_000);
};

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
                onPress={() => download(`rejected-${answer.file.name}`, rejectedCsv)}
              >
                Download the rejected rows
              </Button>{" "}
              Correct them there and bring that file in again.
            </p>
          )}
          <ScrollTable caption="Faults by line" captionHidden className="tall">
            <thead>
              <tr>
                <th scope="col" className="number">
                  Line
                </th>
                <th scope="col">Column</th>
                <th scope="col">Value</th>
                <th scope="col">Rule</th>
                <th scope="col">Remedy</th>
                <th scope="col">Row</th>
              </tr>
            </thead>
            <tbody>
              {faults.map((fault) => (
                <tr key={`${fault.line} ${fault.column} ${fault.rule}`}>
                  <td className="number">{fault.line}</td>
                  <td>{fault.column}</td>
                  <td>
                    <q className="cell-value">{fault.value}</q>
                  </td>
                  <td className="wordy">{fault.rule}</td>
                  <td className="wordy">{fault.remedy}</td>
                  <td className={`fault-${fault.severity}`}>
                    {fault.severity === "rejected" ? "✕ rejected" : "▵ noticed"}
                  </td>
                </tr>
              ))}
            </tbody>
          </ScrollTable>
          {answer.faultsTotal > faults.length && (
            <p className="said">
              The first {faults.length} of {wholeText(answer.faultsTotal)} are shown.
            </p>
          )}
        </section>
      )}

      <section aria-labelledby="records-title">
        <h2 id="records-title">{answer.committed ? "What it changed" : "What it would change"}</h2>
        <ScrollTable caption="Records by kind" captionHidden>
          <thead>
            <tr>
              <th scope="col">Record</th>
              <th scope="col" className="number">
                New
              </th>
              <th scope="col" className="number">
                Changed
              </th>
              <th scope="col" className="number">
                Unchanged
              </th>
              <th scope="col" className="number">
                In conflict
              </th>
            </tr>
          </thead>
          <tbody>
            {answer.records.map((row) => (
              <tr key={row.label}>
                <th scope="row">{recordName(row.label)}</th>
                <td className="number">{wholeText(row.created)}</td>
                <td className="number">{wholeText(row.changed)}</td>
                <td className="number">{wholeText(row.unchanged)}</td>
                <td className={`number ${row.conflict > 0 ? "doubt" : ""}`}>
                  {wholeText(row.conflict)}
                </td>
              </tr>
            ))}
          </tbody>
        </ScrollTable>
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
