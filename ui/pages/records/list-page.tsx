import type { ReactNode } from "react";
import { ProblemNote } from "../../components/notice.tsx";
import type { Records } from "../../data/use-records.ts";

/** A list with the record picked beside it (below it on a phone): question, answer, filters, list. */
export function ListPage({
  question,
  sentence,
  records,
  filters,
  empty,
  list,
  panel,
}: {
  readonly question: string;
  readonly sentence: string;
  readonly records: Records;
  readonly filters: ReactNode;
  readonly empty: ReactNode;
  readonly list: ReactNode;
  readonly panel: ReactNode;
}) {
  return (
    <>
      <h1>{question}</h1>
      {records.problem !== undefined && (
        <ProblemNote problem={records.problem} again={records.again} />
      )}
      {records.isWaiting && records.total === 0 ? (
        <p className="loading">Fetching the list…</p>
      ) : (
        <>
          <p className="sentence" aria-live="polite">
            {sentence}
          </p>
          {filters}
          <div className={panel === undefined ? "list-only" : "list-and-record"}>
            <div className="list-side">{records.total === 0 ? empty : list}</div>
            {panel}
          </div>
        </>
      )}
    </>
  );
}
