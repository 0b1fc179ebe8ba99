import { X } from "lucide-react";
import type { ReactNode } from "react";
import type { RecordAnswer } from "../../../api/contract/records.contract.ts";
import { plural } from "../../components/figures.ts";
import { kindWord } from "../../components/kind-words.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { tellChange } from "../../data/last-change.ts";
import { editRecord, showRecord } from "../../data/records-client.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { LinkTables } from "./link-tables.tsx";
import { RecordHistory } from "./record-history.tsx";
import { TakeOut } from "./take-out.tsx";
import { ValueEditor } from "./value-editor.tsx";
import { propertyWord } from "./value-words.ts";

/** Values of a record, each corrected in place. */
function Values({
  answer: { record },
  fields,
}: {
  readonly answer: RecordAnswer;
  readonly fields: RecordAnswer["fields"];
}) {
  return (
    <dl className="record-values">
      {fields.map((field) => (
        <div key={field.property}>
          <dt>{propertyWord(field.property)}</dt>
          <dd>
            <ValueEditor
              field={field}
              value={record.properties[field.property]}
              properties={record.properties}
              onSave={async (text) =>
                tellChange(
                  await editRecord(record.id, {
                    basedOn: record.version,
                    set: { [field.property]: text },
                  }),
                )
              }
            />
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** Whether a field stands among those shown first: it says something, or it must. */
const isShownFirst = ({ record }: RecordAnswer, field: RecordAnswer["fields"][number]) =>
  field.required || record.properties[field.property] !== undefined;

/** One record whole: its values, corrected in place; what it hangs together with; how it came to be; taking it out. */
export function RecordPanel({
  id,
  closeAddress,
  children,
}: {
  readonly id: string;
  readonly closeAddress: string;
  /** What a page has to say about it before the rest. */
  readonly children?: (answer: RecordAnswer) => ReactNode;
}) {
  const answer = useAnswer<RecordAnswer>(`record ${id}`, (signal) => showRecord(id, signal));
  const value = answer.value?.record.id === id ? answer.value : undefined;
  const fields = (value?.fields ?? []).filter(({ kind }) => kind !== "document");
  const known = value === undefined ? [] : fields.filter((field) => isShownFirst(value, field));
  const unknown = fields.filter((field) => !known.includes(field));
  return (
    <aside className="record" aria-label="The record picked">
      <a className="record-close" href={closeAddress} aria-label="Close the record">
        <X size={20} aria-hidden="true" />
      </a>
      {answer.problem !== undefined && (
        <ProblemNote problem={answer.problem} again={answer.again} />
      )}
      {value === undefined ? (
        answer.waiting && <p className="loading">Fetching the record…</p>
      ) : (
        <>
          <p className="record-kind">{kindWord(value.record.label)}</p>
          <h2 className="record-title">{value.record.title.replaceAll(" / ", " › ")}</h2>
          {children?.(value)}
          <Values answer={value} fields={known} />
          <LinkTables answer={value} />
          {unknown.length > 0 && (
            <details>
              <summary>{plural(unknown.length, "more thing")} could be said of it</summary>
              <Values answer={value} fields={unknown} />
            </details>
          )}
          {Object.keys(value.record.extra).length > 0 && (
            <dl className="record-values">
              {Object.entries(value.record.extra).map(([heading, text]) => (
                <div key={heading}>
                  <dt>{heading} (kept from the file)</dt>
                  <dd>{text}</dd>
                </div>
              ))}
            </dl>
          )}
          <RecordHistory journal={value.journal} />
          <TakeOut key={`${id} ${value.record.version}`} record={value.record} />
        </>
      )}
    </aside>
  );
}
