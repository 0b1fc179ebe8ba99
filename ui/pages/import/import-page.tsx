import { useRef, useState } from "react";
import { Button, DropZone, FileTrigger, Text } from "react-aria-components";
import type {
  ImportAnswer,
  ImportHistory,
  ImportOptions,
} from "../../../api/contract/import.contract.ts";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { problemOf, useAnswer } from "../../data/use-answer.ts";
import { writeRoute } from "../../routing/route.ts";
import { importsSoFar, sendFile, undoImport } from "./import-client.ts";
import { PastImports } from "./past-imports.tsx";
import { Proposal } from "./proposal.tsx";

/** What is in this file, and what would it change? */
export function ImportPage() {
  const [file, setFile] = useState<File>();
  const [options, setOptions] = useState<ImportOptions>({});
  const [answer, setAnswer] = useState<ImportAnswer>();
  const [problem, setProblem] = useState<ProblemDocument>();
  const [said, setSaid] = useState("");
  const [waiting, setWaiting] = useState(false);
  const going = useRef<AbortController>(undefined);
  const history = useAnswer<ImportHistory>("imports", (signal) => importsSoFar(signal));

  const send = async (chosen: File, asked: ImportOptions, dryRun: boolean) => {
    going.current?.abort();
    const stop = new AbortController();
    going.current = stop;
    setWaiting(true);
    setProblem(undefined);
    setSaid("");
    try {
      const reply = await sendFile(chosen, { ...asked, dryRun }, stop.signal);
      if (stop.signal.aborted) return;
      setAnswer(reply);
      if (!dryRun) history.again();
    } catch (error) {
      if (stop.signal.aborted) return;
      setProblem(problemOf(error));
    }
    setWaiting(false);
  };
  const take = (chosen: File) => {
    setFile(chosen);
    setOptions({});
    setAnswer(undefined);
    void send(chosen, {}, true);
  };
  const undoThis = async (id: string) => {
    try {
      const undone = await undoImport(id);
      setAnswer(undefined);
      setFile(undefined);
      setSaid(undone.sentence);
    } catch (error) {
      setProblem(problemOf(error));
    }
    history.again();
  };
  const committed = answer?.committed === true ? answer.import : undefined;
  return (
    <>
      <h1>What is in this file, and what would it change?</h1>
      <DropZone
        className={`drop ${answer === undefined ? "" : "drop-small"}`}
        getDropOperation={() => "copy"}
        onDrop={(event) => {
          for (const dropped of event.items)
            if (dropped.kind === "file") {
              void dropped.getFile().then(take);
              return;
            }
        }}
      >
        <Text slot="label" className="drop-label">
          {file === undefined ? "Drop a CSV file here" : `Looking at ${file.name}`}
        </Text>
        <FileTrigger
          acceptedFileTypes={[".csv", ".tsv", ".txt", "text/csv", "text/plain"]}
          onSelect={(list) => {
            const chosen = list?.item(0);
            if (chosen) take(chosen);
          }}
        >
          <Button className={answer === undefined ? "act" : "quiet"}>
            {file === undefined ? "Choose a file" : "Choose another file"}
          </Button>
        </FileTrigger>
      </DropZone>
      {problem !== undefined && <ProblemNote problem={problem} />}
      {said !== "" && (
        <p className="sentence" role="status">
          {said}
        </p>
      )}
      {waiting && answer === undefined && (
        <p className="loading" role="status">
          Reading {file?.name}…{" "}
          <Button
            className="quiet"
            onPress={() => {
              going.current?.abort();
              setWaiting(false);
              setFile(undefined);
            }}
          >
            Stop
          </Button>
        </p>
      )}
      {committed !== undefined && (
        <div className="deed">
          <a className="act" href={writeRoute("crossing")}>
            What must we carry?
          </a>
          <Button className="quiet" onPress={() => void undoThis(committed.id)}>
            Undo this import
          </Button>
        </div>
      )}
      {answer !== undefined && file !== undefined && (
        <Proposal
          answer={answer}
          options={options}
          waiting={waiting}
          onOptions={(next) => {
            setOptions(next);
            void send(file, next, true);
          }}
          onCommit={() => void send(file, options, false)}
        />
      )}
      <PastImports history={history} onUndone={() => setAnswer(undefined)} />
    </>
  );
}
