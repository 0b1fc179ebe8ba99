import { X } from "lucide-react";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { ProblemDocument } from "../../api/contract/problem.contract.ts";
import { ProblemNote } from "../components/notice.tsx";
import { forgetChange, tellChange, useLastChange } from "../data/last-change.ts";
import { undoChange } from "../data/records-client.ts";
import { problemOf } from "../data/use-answer.ts";

/** Says what was last changed and takes it back at one press; an undo can itself be undone. */
export function UndoBar() {
  const change = useLastChange();
  const [problem, setProblem] = useState<ProblemDocument>();
  const undo = async (sequence: number) => {
    setProblem(undefined);
    try {
      tellChange(await undoChange(sequence));
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  return (
    <section className="undo-bar" aria-label="Last change">
      <div role="status">
        {change !== undefined && (
          <p>
            {change.sentence}
            {change.notes.map((note) => ` ${note}`)}
          </p>
        )}
      </div>
      {change !== undefined && (
        <div className="undo-deeds">
          {change.sequence !== null && (
            <Button className="quiet" onPress={() => void undo(change.sequence ?? 0)}>
              Undo
            </Button>
          )}
          <Button
            className="plain"
            aria-label="Put this notice away"
            onPress={() => {
              setProblem(undefined);
              forgetChange();
            }}
          >
            <X size={18} aria-hidden="true" />
          </Button>
        </div>
      )}
      {problem !== undefined && <ProblemNote problem={problem} />}
    </section>
  );
}
