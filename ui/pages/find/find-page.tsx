import { useState } from "react";
import { Button, Form, Input, Label, SearchField } from "react-aria-components";
import type { FindAnswer } from "../../../api/contract/find.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { kindWord } from "../../components/kind-words.ts";
import { Answered, ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { ask } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { changeQuery } from "../../routing/route.ts";
import { hitAddress } from "../../shell/hit-address.ts";

/** More than this nobody reads; another word narrows the list. */
const mostShown = 100;

type Hit = FindAnswer["hits"][number];

const columns: readonly Column<Hit>[] = [
  {
    id: "name",
    name: "Name",
    kind: "name",
    cell: ({ name, label, id }) => {
      const address = hitAddress(label, id);
      return address === undefined ? (
        name
      ) : (
        <a className="row-link" href={address}>
          {name}
        </a>
      );
    },
    value: ({ name }) => name,
  },
  { id: "kind", name: "Kind", cell: ({ label }) => kindWord(label) },
  { id: "detail", name: "Detail", kind: "wordy", cell: ({ detail }) => detail },
  {
    id: "aboard",
    name: "Aboard",
    kind: "wordy",
    cell: ({ aboard }) =>
      (aboard ?? []).map((lot) => <div key={lot.vessel + lot.place + lot.words}>{lot.words}</div>),
    value: ({ aboard }) => (aboard ?? []).reduce((sum, lot) => sum + lot.quantity, 0),
  },
  {
    id: "used",
    name: "Taken by",
    kind: "wordy",
    cell: ({ usedBy }) => (usedBy ?? []).map((words) => <div key={words}>{words}</div>),
    value: ({ usedBy }) => (usedBy ?? []).join("; "),
  },
];

/** Where is it? Everything that answers to some words, with where it lies and what takes it. */
export function FindPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const text = query.get("text") ?? "";
  const [typed, setTyped] = useState(text);
  const answer = useAnswer<FindAnswer | undefined>(`find all ${text}`, (signal) =>
    text === ""
      ? Promise.resolve(undefined)
      : ask<FindAnswer>(`/api/find?text=${encodeURIComponent(text)}&limit=${mostShown}`, {
          signal,
        }),
  );
  const { value } = answer;
  return (
    <>
      <h1>Where is it?</h1>
      <Form
        className="line-form"
        onSubmit={(event) => {
          event.preventDefault();
          changeQuery({ text: typed.trim() });
        }}
      >
        <SearchField className="field" value={typed} onChange={setTyped}>
          <Label>Part number, name, maker or locker</Label>
          <Input className="text-input" />
        </SearchField>
        <Button type="submit" className="act">
          Find
        </Button>
      </Form>
      {answer.problem !== undefined && (
        <ProblemNote problem={answer.problem} again={answer.again} />
      )}
      {value !== undefined && (
        <>
          <Answered sentence={value.sentence} waiting={answer.waiting} />
          {value.hits.length > 0 && (
            <>
              {value.hits.length >= mostShown && (
                <p className="said">
                  The first {mostShown} stand here, the best matches first. Another word narrows the
                  list.
                </p>
              )}
              <DataTable
                caption="What was found"
                sorts
                columns={columns}
                rows={value.hits}
                rowKey={({ id }) => id}
              />
              <Cautions title="Read with every list" cautions={value.cautions} />
            </>
          )}
        </>
      )}
    </>
  );
}
