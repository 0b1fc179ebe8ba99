import { owners } from "virtual:schema-list";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import type { RecordAnswer } from "../../../api/contract/records.contract.ts";
import type { StowAnswer, UseAnswer } from "../../../api/contract/stock.contract.ts";
import type { StowageLot, StowagePlace } from "../../../api/contract/stowage.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { ProblemNote } from "../../components/notice.tsx";
import { NumberBox } from "../../components/number-box.tsx";
import { send } from "../../data/ask.ts";
import { tellChange } from "../../data/last-change.ts";
import { editRecord, showRecord } from "../../data/records-client.ts";
import { problemOf, useAnswer } from "../../data/use-answer.ts";
import { writeRoute } from "../../routing/route.ts";
import { ValueEditor } from "../records/value-editor.tsx";
import { propertyWord } from "../records/value-words.ts";

const reasons = [
  { id: "", name: "as the part's lines say" },
  { id: "failure", name: "it failed" },
  { id: "wear", name: "it wore out" },
  { id: "service", name: "a service" },
  { id: "lost", name: "lost" },
  { id: "other", name: "something else" },
] as const;

const lotFields = owners.find(({ owner }) => owner === "StockLot")?.properties ?? [];

/** What one does with a lot: use pieces of it, move them, correct what is written of it. */
export function LotDeeds({
  lot,
  places,
}: {
  readonly lot: StowageLot;
  readonly places: readonly StowagePlace[];
}) {
  const [pieces, setPieces] = useState(1);
  const [why, setWhy] = useState("");
  const [to, setTo] = useState<string | null>(null);
  const [problem, setProblem] = useState<ProblemDocument>();
  const attempt = async (work: () => Promise<UseAnswer | StowAnswer>) => {
    setProblem(undefined);
    try {
      tellChange(await work());
    } catch (error) {
      setProblem(problemOf(error));
    }
  };
  return (
    <div className="why lot-deeds">
      {lot.words !== "" && <p>{lot.words}</p>}
      <div className="settings">
        <NumberBox
          label="Pieces"
          value={pieces}
          min={1}
          max={Math.max(1, lot.pieces)}
          onChange={setPieces}
        />
        <Choice
          label="Used because of"
          value={why}
          groups={[{ name: "", options: reasons }]}
          onChange={setWhy}
        />
        <Button
          className="act"
          onPress={() =>
            void attempt(() =>
              send<UseAnswer>("/api/use", {
                part: lot.part.id,
                quantity: pieces,
                from: lot.id,
                ...(why === "" ? {} : { why }),
                ...(lot.state === "usable" || lot.state === "falls due" ? {} : { outOfDate: true }),
              }),
            )
          }
        >
          Use
        </Button>
      </div>
      <div className="settings">
        <Choice
          label="Move them to"
          value={to}
          placeholder="Choose a place"
          groups={[
            {
              name: "",
              options: places
                .filter(({ id }) => id !== lot.placeId)
                .map(({ id, path }) => ({ id, name: path })),
            },
          ]}
          onChange={setTo}
        />
        <Button
          className="quiet"
          isDisabled={to === null}
          onPress={() =>
            void attempt(() =>
              send<StowAnswer>("/api/stow", {
                part: lot.part.id,
                quantity: pieces,
                place: to,
                from: lot.id,
              }),
            )
          }
        >
          Move
        </Button>
      </div>
      {problem !== undefined && <ProblemNote problem={problem} />}
      <LotValues id={lot.id} />
      <p>
        <a href={writeRoute("parts", [["part", lot.part.id]])}>All about {lot.part.name}</a>
      </p>
    </div>
  );
}

/** What is written of a lot, each value corrected in place. */
function LotValues({ id }: { readonly id: string }) {
  const answer = useAnswer<RecordAnswer>(`record ${id}`, (signal) => showRecord(id, signal));
  const record = answer.value?.record;
  if (record === undefined)
    return answer.problem === undefined ? (
      <p className="loading">Fetching the lot…</p>
    ) : (
      <ProblemNote problem={answer.problem} again={answer.again} />
    );
  return (
    <dl className="record-values">
      {lotFields.map((field) => (
        <div key={field.name}>
          <dt>{propertyWord(field.name)}</dt>
          <dd>
            <ValueEditor
              field={{
                property: field.name,
                kind: field.kind,
                meaning: field.meaning,
                required: field.required,
                ...(field.unit === undefined ? {} : { unit: field.unit }),
                ...(field.choices === undefined ? {} : { choices: [...field.choices] }),
              }}
              value={record.properties[field.name]}
              properties={record.properties}
              onSave={async (text) =>
                tellChange(
                  await editRecord(id, {
                    basedOn: record.version,
                    set: { [field.name]: text },
                  }),
                )
              }
            />
          </dd>
        </div>
      ))}
    </dl>
  );
}
