import { useState } from "react";
import { Button } from "react-aria-components";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import type { DependantsAnswer, RecordDocument } from "../../../api/contract/records.contract.ts";
import { kindWord } from "../../components/kind-words.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { tellChange } from "../../data/last-change.ts";
import { deleteRecord, showDependants } from "../../data/records-client.ts";
import { problemOf } from "../../data/use-answer.ts";

/** Taking a record out: first what would go with it, then the deed, which the bar offers to undo. */
export function TakeOut({ record }: { readonly record: RecordDocument }) {
  const [found, setFound] = useState<DependantsAnswer>();
  const [problem, setProblem] = useState<ProblemDocument>();
  const [isBusy, setBusy] = useState(false);
  const attempt = async (work: () => Promise<void>) => {
    setBusy(true);
    setProblem(undefined);
    try {
      await work();
    } catch (error) {
      setProblem(problemOf(error));
    }
    setBusy(false);
  };
  return (
    <div className="take-out">
      {found === undefined ? (
        <Button
          className="quiet"
          isDisabled={isBusy}
          onPress={() =>
            void attempt(async () => {
              const dependants = await showDependants(record.id);
              if (dependants.records > 0) setFound(dependants);
              else tellChange(await deleteRecord(record.id, record.version, 0));
            })
          }
        >
          Take it out
        </Button>
      ) : (
        <>
          <p role="status">{found.sentence}</p>
          <ul className="take-out-list">
            {found.shown.slice(0, 12).map(({ id, label, name }) => (
              <li key={id}>
                {kindWord(label)} {name}
              </li>
            ))}
            {found.records > 12 && <li>and {found.records - 12} more</li>}
          </ul>
          <div className="deed">
            <Button
              className="act"
              isDisabled={isBusy}
              onPress={() =>
                void attempt(async () =>
                  tellChange(await deleteRecord(record.id, found.record.version, found.records)),
                )
              }
            >
              Take out all {found.records + 1}
            </Button>
            <Button className="quiet" onPress={() => setFound(undefined)}>
              Leave it
            </Button>
          </div>
        </>
      )}
      {problem !== undefined && <ProblemNote problem={problem} />}
    </div>
  );
}
