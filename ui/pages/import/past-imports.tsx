import { useState } from "react";
import { Button } from "react-aria-components";
import type { ImportHistory, UndoAnswer } from "../../../api/contract/import.contract.ts";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import { wholeText } from "../../components/figures.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { ScrollTable } from "../../components/scroll-table.tsx";
import { type Answer, problemOf } from "../../data/use-answer.ts";
import { undoImport } from "./import-client.ts";

const moment = (iso: string) =>
  new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeStyle: "short" }).format(
    new Date(iso),
  );

/** Files taken in so far; each can be undone whole. */
export function PastImports({
  history,
  onUndone,
}: {
  readonly history: Answer<ImportHistory>;
  readonly onUndone: () => void;
}) {
  const [undone, setUndone] = useState<UndoAnswer>();
  const [problem, setProblem] = useState<ProblemDocument>();
  const [busy, setBusy] = useState<string>();
  const undo = async (id: string) => {
    setBusy(id);
    setProblem(undefined);
    try {
      setUndone(await undoImport(id));
      onUndone();
    } catch (error) {
      setProblem(problemOf(error));
    }
    setBusy(undefined);
    history.again();
  };
  const imports = history.value?.imports ?? [];
  return (
    <section aria-labelledby="past-title">
      <h2 id="past-title">Taken in so far</h2>
      {history.problem !== undefined && (
        <ProblemNote problem={history.problem} again={history.again} />
      )}
      {problem !== undefined && <ProblemNote problem={problem} />}
      <p className="said" aria-live="polite">
        {undone?.sentence ?? ""}
      </p>
      {history.value !== undefined && imports.length === 0 && <p>No file yet.</p>}
      {imports.length > 0 && (
        <ScrollTable caption="Files taken in" captionHidden className="tall">
          <thead>
            <tr>
              <th scope="col">File</th>
              <th scope="col">When</th>
              <th scope="col">By</th>
              <th scope="col" className="number">
                Accepted of read
              </th>
              <th scope="col">Undo</th>
            </tr>
          </thead>
          <tbody>
            {imports.map((run) => (
              <tr key={run.id} className={run.undone === null ? "" : "undone"}>
                <th scope="row">{run.name}</th>
                <td>{moment(run.at)}</td>
                <td>{run.who}</td>
                <td className="number">
                  {wholeText(run.accepted)} of {wholeText(run.read)}
                </td>
                <td>
                  {run.undone === null ? (
                    <Button
                      className="quiet"
                      isDisabled={busy !== undefined}
                      onPress={() => void undo(run.id)}
                    >
                      {busy === run.id ? "Undoing…" : "Undo"}
                      <span className="hidden"> {run.name}</span>
                    </Button>
                  ) : (
                    `undone ${moment(run.undone)}`
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </ScrollTable>
      )}
    </section>
  );
}
