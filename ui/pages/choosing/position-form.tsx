import { X } from "lucide-react";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { FigureBox } from "../../components/figure-box.tsx";
import { plural } from "../../components/figures.ts";
import { NumberBox } from "../../components/number-box.tsx";
import { readFigure } from "../../components/read-figure.ts";
import { TextBox } from "../../components/text-box.tsx";
import { useRecords } from "../../data/use-records.ts";
import { changeQuery } from "../../routing/route.ts";
import { ownerOf } from "../records/record-columns.ts";
import { hoursIn, idsIn, operationsIn, unitsIn } from "./choice-question.ts";

type Query = ReadonlyMap<string, string>;

const unknownKind = "another kind";

/** A figure that may be left out, kept in the address. */
function UseBox({
  label,
  name,
  value,
  most,
  hint,
}: {
  readonly label: string;
  readonly name: string;
  readonly value: number | undefined;
  readonly most: number;
  readonly hint: string;
}) {
  return (
    <FigureBox
      label={label}
      shown={value === undefined ? "" : String(value)}
      hint={hint}
      placeholder="not known"
      read={(text) => {
        const found = readFigure(text, most);
        return typeof found === "string" ? { fault: found } : { value: found };
      }}
      onChange={(next) => changeQuery({ [name]: next === undefined ? "" : String(next) })}
    />
  );
}

/** The functions the new gear serves: picked one after another, each can be taken off again. */
function Serves({ vessel, query }: { readonly vessel: string; readonly query: Query }) {
  const functions = useRecords({ label: "RequiredFunction" }, true);
  const own = functions.rows.filter((row) => ownerOf(row, "REQUIRED_ON")?.id === vessel);
  const chosen = idsIn(query.get("serves"));
  const left = own.filter(({ id }) => !chosen.includes(id));
  if (own.length === 0 && chosen.length === 0) return null;
  return (
    <div className="serves">
      <Choice
        label="Serves"
        value={null}
        placeholder={chosen.length === 0 ? "No function named" : "Add another function"}
        groups={[
          {
            name: "",
            options: left
              .map(({ id, name, properties }) => ({
                id,
                name,
                ...(typeof properties["tier"] === "string"
                  ? { meaning: `${properties["tier"]} tier` }
                  : {}),
              }))
              .sort((a, b) => a.name.localeCompare(b.name, "en")),
          },
        ]}
        onChange={(id) => changeQuery({ serves: [...chosen, id].join() })}
      />
      {chosen.length > 0 && (
        <ul className="picked" aria-label="Functions it serves">
          {chosen.map((id) => {
            const name = own.find((row) => row.id === id)?.name ?? "a function no longer on file";
            return (
              <li key={id}>
                {name}
                <Button
                  className="plain"
                  aria-label={`It does not serve ${name}`}
                  onPress={() =>
                    changeQuery({ serves: chosen.filter((other) => other !== id).join() })
                  }
                >
                  <X size={18} aria-hidden="true" />
                </Button>
              </li>
            );
          })}
        </ul>
      )}
    </div>
  );
}

/** A position that is not there yet: where, what for, how much it is used. */
export function PositionForm({
  query,
  overview,
}: {
  readonly query: Query;
  readonly overview: OverviewAnswer;
}) {
  const { vessels, categories } = overview;
  const kinds = categories.filter(({ category }) => category !== "no category");
  const kind = query.get("kind") ?? "";
  const [isOther, setOther] = useState(
    kind !== "" && kinds.every(({ category }) => category !== kind),
  );
  const vessel = query.get("vessel") ?? vessels[0]?.id ?? "";
  return (
    <>
      <div className="settings">
        <Choice
          label="Kind of gear"
          value={isOther ? unknownKind : kind === "" ? null : kind}
          placeholder="Choose a kind"
          groups={[
            {
              name: "",
              options: [
                ...kinds.map(({ category, models }) => ({
                  id: category,
                  name: category,
                  meaning: `${plural(models, "make")} on file`,
                })),
                { id: unknownKind, name: unknownKind, meaning: "of which no make is on file" },
              ],
            },
          ]}
          onChange={(id) => {
            setOther(id === unknownKind);
            changeQuery({ kind: id === unknownKind ? "" : id, needs: "", out: "" });
          }}
        />
        {isOther && (
          <TextBox
            label="What kind"
            value={kind}
            placeholder="windlass"
            onChange={(text) => changeQuery({ kind: text.slice(0, 200) })}
          />
        )}
        <TextBox
          label="Position, by name"
          value={query.get("name") ?? ""}
          placeholder={kind === "" ? "new gear" : `new ${kind}`}
          onChange={(name) => changeQuery({ name: name.slice(0, 200) })}
        />
        {vessels.length > 1 && (
          <Choice
            label="Vessel"
            value={vessel}
            groups={[{ name: "", options: vessels }]}
            onChange={(id) => changeQuery({ vessel: id, serves: "" })}
          />
        )}
        <NumberBox
          label="Units, all of one make"
          value={unitsIn(query)}
          min={1}
          max={50}
          onChange={(count) => changeQuery({ count: count === 1 ? "" : String(count) })}
        />
      </div>
      <div className="settings needs">
        <UseBox
          label="Running hours a day"
          name="hours"
          value={hoursIn(query)}
          most={24}
          hint="all day where not known"
        />
        <UseBox
          label="Operations a day"
          name="operations"
          value={operationsIn(query)}
          most={100_000}
          hint="some parts fail by use, not by time"
        />
        <Serves vessel={vessel} query={query} />
      </div>
    </>
  );
}
