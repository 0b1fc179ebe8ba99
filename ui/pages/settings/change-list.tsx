import { useState } from "react";
import { Button } from "react-aria-components";
import type { ChangeLine, HistoryAnswer } from "../../../api/contract/history.contract.ts";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import { plural } from "../../components/figures.ts";
import { ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { ask } from "../../data/ask.ts";
import { tellChange } from "../../data/last-change.ts";
import { undoChange } from "../../data/records-client.ts";
import { problemOf, useAnswer } from "../../data/use-answer.ts";

const moment = (iso: string) =>
  new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" }).format(
    new Date(iso),
  );

/** What was changed, newest first; each can be taken back, and so can the taking back. */
export function ChangeList() {
  const answer = useAnswer<HistoryAnswer>("history", (signal) =>
    ask<HistoryAnswer>("/api/history?limit=100", { signal }),
  );
  const [problem, setProblem] = useState<ProblemDocument>();
  const undo = async (sequence: number) => {
    setProblem(undefined);
    try {
      tellChange(await undoChange(sequence));
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  const changes = answer.value?.changes ?? [];
  const columns: readonly Column<ChangeLine>[] = [
    { id: "what", name: "What", kind: "name", className: "wordy", cell: ({ what }) => what },
    { id: "at", name: "When", cell: ({ at }) => moment(at), value: ({ at }) => at },
    { id: "who", name: "By", cell: ({ who }) => who },
    {
      id: "records",
      name: "Entries",
      kind: "number",
      cell: ({ records }) => records,
    },
    {
      id: "undo",
      name: "Undo",
      cell: ({ undone, sequence, what }) =>
        undone === null ? (
          <Button className="quiet" onPress={() => void undo(sequence)}>
            Undo<span className="hidden"> {what}</span>
          </Button>
        ) : (
          `undone ${moment(undone.at)}`
        ),
      value: ({ undone }) => undone?.at ?? null,
    },
  ];
  return (
    <section aria-labelledby="changes-title">
      <h2 id="changes-title">What was changed</h2>
      {answer.problem !== undefined && (
        <ProblemNote problem={answer.problem} again={answer.again} />
      )}
      {problem !== undefined && <ProblemNote problem={problem} />}
      {answer.value !== undefined && changes.length === 0 && <p>Nothing yet.</p>}
      {changes.length > 0 && (
        <>
          <p className="said">The last {plural(changes.length, "change")}, imports among them.</p>
          <DataTable
            caption="Changes, newest first"
            className="tall"
            sorts
            columns={columns}
            rows={changes}
            rowKey={({ sequence }) => String(sequence)}
            rowClass={({ undone }) => (undone === null ? "" : "undone")}
          />
        </>
      )}
    </section>
  );
}
