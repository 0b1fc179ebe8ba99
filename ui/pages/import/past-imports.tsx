import { useState } from "react";
import { Button } from "react-aria-components";
import type { ImportHistory, UndoAnswer } from "../../../api/contract/import.contract.ts";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import { wholeText } from "../../components/figures.ts";
import { ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { type Answer, problemOf } from "../../data/use-answer.ts";
import { undoImport } from "./import-client.ts";

type Run = ImportHistory["imports"][number];

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
  const columns: readonly Column<Run>[] = [
    { id: "file", name: "File", kind: "name", cell: ({ name }) => name },
    { id: "at", name: "When", cell: ({ at }) => moment(at), value: ({ at }) => at },
    { id: "who", name: "By", cell: ({ who }) => who },
    {
      id: "accepted",
      name: "Accepted of read",
      kind: "number",
      cell: ({ accepted, read }) => `${wholeText(accepted)} of ${wholeText(read)}`,
      value: ({ accepted }) => accepted,
    },
    {
      id: "undo",
      name: "Undo",
      cell: (run) =>
        run.undone === null ? (
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
        ),
      value: ({ undone }) => undone,
    },
  ];
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
        <DataTable
          caption="Files taken in"
          className="tall"
          sorts
          columns={columns}
          rows={imports}
          rowKey={({ id }) => id}
          rowClass={(run) => (run.undone === null ? "" : "undone")}
        />
      )}
    </section>
  );
}
