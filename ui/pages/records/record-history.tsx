import type { RecordAnswer } from "../../../api/contract/records.contract.ts";
import { dayText } from "../../components/figures.ts";
import { propertyWord } from "./value-words.ts";

type Line = RecordAnswer["journal"][number];

const changesText = ({ changes }: Line) =>
  changes
    .map(({ property, before, after }) =>
      before === null
        ? `${propertyWord(property)} ${after ?? ""}`
        : `${propertyWord(property)} from ${before} to ${after ?? "not known"}`,
    )
    .join("; ");

/** How a record came to be what it is, newest first. */
export function RecordHistory({ journal }: { readonly journal: RecordAnswer["journal"] }) {
  if (journal.length === 0) return null;
  return (
    <details className="record-history">
      <summary>How it came to be</summary>
      <ol>
        {journal.map((line) => (
          <li key={`${line.sequence} ${line.subject}`}>
            <span className="said">
              {dayText(line.at)}, {line.who}
              {line.import === undefined ? "" : `, from ${line.import.name}`}
            </span>
            <br />
            {line.kind} {line.subject}
            {line.changes.length > 0 && `: ${changesText(line)}`}
          </li>
        ))}
      </ol>
    </details>
  );
}
