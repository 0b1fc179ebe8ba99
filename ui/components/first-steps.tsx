import { useState } from "react";
import { Button } from "react-aria-components";
import type { ProblemDocument } from "../../api/contract/problem.contract.ts";
import type { SampleAnswer } from "../../api/contract/sample.contract.ts";
import { send } from "../data/ask.ts";
import { tellChange } from "../data/last-change.ts";
import { problemOf } from "../data/use-answer.ts";
import { writeRoute } from "../routing/route.ts";
import { ProblemNote } from "./notice.tsx";

/** What to do first where nothing is on file: bring a list in, or look round among invented gear. */
export function FirstSteps({ list = "Import a first list" }: { readonly list?: string }) {
  const [isBusy, setBusy] = useState(false);
  const [problem, setProblem] = useState<ProblemDocument>();
  const fill = async () => {
    setBusy(true);
    setProblem(undefined);
    try {
      const { sentence } = await send<SampleAnswer>("/api/sample", {});
      tellChange({ sentence, sequence: null });
    } catch (error) {
      setProblem(problemOf(error));
    }
    setBusy(false);
  };
  return (
    <>
      <p className="deed">
        <a className="act" href={writeRoute("import")}>
          {list}
        </a>
        <Button className="quiet" isDisabled={isBusy} onPress={() => void fill()}>
          {isBusy ? "Taking the invented fleet in…" : "Look round with an invented fleet"}
        </Button>
      </p>
      {problem !== undefined && <ProblemNote problem={problem} />}
    </>
  );
}
