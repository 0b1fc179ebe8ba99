import { useState } from "react";
import { Button, FileTrigger, Label, TextArea, TextField } from "react-aria-components";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import { plural } from "../../components/figures.ts";
import { ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { type OwnList, setPreferences } from "../../data/preferences.ts";
import { saveFile } from "../../data/save-file.ts";
import { ownListExample } from "./own-list-example.ts";
import { readListText } from "./read-list-text.ts";

const keep = (ownList: OwnList | null) => setPreferences({ ownList });

/** A minimum list of one's own: chosen as a file or pasted, kept in this browser, sent only with the question. */
export function OwnListFields({ own }: { readonly own: OwnList | null }) {
  const [typed, setTyped] = useState("");
  const [fault, setFault] = useState("");
  const take = async (file: File) => {
    const read = readListText(new Uint8Array(await file.arrayBuffer()));
    if ("fault" in read) setFault(read.fault);
    else {
      setFault("");
      keep({ name: file.name, text: read.text });
    }
  };
  return (
    <details className="own-list">
      <summary>
        {own === null ? "A minimum list of your own" : `Your own list: ${own.name}`}
      </summary>
      <p className="said">
        A CSV in the columns of the example; Spare, Basis, What it asks and Source are needed, the
        others may be left out. It is kept in this browser, and goes to the program aboard only with
        the question.
      </p>
      <div className="deed">
        <FileTrigger
          acceptedFileTypes={[".csv", ".tsv", ".txt", "text/csv", "text/plain"]}
          onSelect={(list) => {
            const chosen = list?.item(0);
            if (chosen) void take(chosen);
          }}
        >
          <Button className="quiet">
            {own === null ? "Choose a CSV file" : "Choose another file"}
          </Button>
        </FileTrigger>
        <Button
          className="quiet"
          onPress={() => saveFile("own-minimum-list.csv", "text/csv", ownListExample)}
        >
          Save an example
        </Button>
        {own !== null && (
          <Button className="quiet" onPress={() => keep(null)}>
            Forget {own.name}
          </Button>
        )}
      </div>
      {fault !== "" && <p role="alert">{fault}</p>}
      <TextField className="field" value={typed} onChange={setTyped}>
        <Label>or paste its rows here, with the heading row</Label>
        <TextArea className="text-input pasted-list" rows={5} />
      </TextField>
      <p>
        <Button
          className="quiet"
          isDisabled={typed.trim() === ""}
          onPress={() => {
            setFault("");
            keep({ name: "pasted list", text: typed });
            setTyped("");
          }}
        >
          Keep what is pasted
        </Button>
      </p>
    </details>
  );
}

interface Fault {
  readonly line: number;
  readonly column: string;
  readonly words: string;
}

const columns: readonly Column<Fault>[] = [
  { id: "line", name: "Line", kind: "number", cell: ({ line }) => String(line) },
  { id: "column", name: "Column", kind: "name", cell: ({ column }) => column || "the row" },
  { id: "words", name: "What is wrong, and what to do", kind: "wordy", cell: ({ words }) => words },
];

/** The faults of rows as a problem's pointers place them: `/line/5/Basis`. */
function faultsOf({ errors }: ProblemDocument): readonly Fault[] {
  return (errors ?? []).flatMap(({ pointer, detail }): Fault[] => {
    const [, line, column] = /^\/line\/(\d+)(?:\/(.+))?$/.exec(pointer) ?? [];
    if (line === undefined) return [];
    return [
      {
        line: Number(line),
        column: column ?? "",
        words: detail.replace(/^line \d+[^:]*: /, ""),
      },
    ];
  });
}

/** Why a list was not taken: row by row where its rows are at fault. */
export function ListProblem({
  problem,
  again,
}: {
  readonly problem: ProblemDocument;
  readonly again: () => void;
}) {
  const faults = faultsOf(problem);
  if (faults.length === 0) return <ProblemNote problem={problem} again={again} />;
  return (
    <div className="problem" role="alert">
      <p>
        <strong>{plural(faults.length, "cell")} of your own list not understood,</strong> so nothing
        was checked against it. Mend the file and choose it again.
      </p>
      <DataTable
        caption="What was not understood"
        columns={columns}
        rows={faults}
        rowKey={({ line, column, words }) => `${line} ${column} ${words}`}
      />
    </div>
  );
}
