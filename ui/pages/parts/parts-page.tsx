import { useMemo } from "react";
import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { plural } from "../../components/figures.ts";
import { FirstSteps } from "../../components/first-steps.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { massColumnName, massText, massUnit } from "../../components/units.ts";
import { usePreferences } from "../../data/preferences.ts";
import { useRecords } from "../../data/use-records.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { AddRecord } from "../records/add-record.tsx";
import { ListFilter } from "../records/list-filter.tsx";
import { ListPage } from "../records/list-page.tsx";
import { numberColumn, ownerColumn, textOf } from "../records/record-columns.ts";
import { RecordPanel } from "../records/record-panel.tsx";
import { PartAboard } from "./part-aboard.tsx";

const columnsOf = (
  units: "metric" | "imperial",
  text: string,
): readonly Column<RecordDocument>[] => [
  {
    id: "partNumber",
    name: "Part number",
    share: 1.5,
    kind: "name",
    cell: (part) =>
      part.label === "" ? (
        "…"
      ) : (
        <a
          className="row-link"
          href={writeRoute("parts", [
            ["text", text],
            ["part", part.id],
          ])}
        >
          {part.name}
        </a>
      ),
    value: (part) => part.name,
  },
  {
    id: "description",
    name: "Description",
    share: 2,
    cell: (part) => textOf(part, "description") || "–",
  },
  ownerColumn("MADE_BY", "Maker"),
  numberColumn("massKg", massColumnName(units), (kg) => massText(kg, units), {
    share: 0.6,
    why: (part) => ({
      what:
        typeof part.properties["massKg"] === "number"
          ? `One piece of ${part.name} weighs ${massText(part.properties["massKg"], units)} ${massUnit(units)}.`
          : `What a piece of ${part.name} weighs is not known.`,
      how: "As stated for one piece. Where it is not known, the kit's mass takes the median of the parts that are, and says how many it counted so.",
      rests: "The parts list or whoever typed it: open the part for when and by whom.",
      change: "Weigh one and correct it in the part.",
    }),
    leftOut: "when narrow",
  }),
  {
    id: "isSafety",
    name: "Safety",
    share: 0.6,
    leftOut: "when narrow",
    cell: (part) => (part.properties["isSafety"] === true ? "△ safety" : ""),
    value: (part) => (part.properties["isSafety"] === true ? 1 : 0),
  },
];

/** Properties the program can sort by; the rest are sorted here only where all rows are here. */
const sortable = new Set(["partNumber", "description", "massKg", "isSafety"]);

/** Every part: what it is, where it is used, who sells it, where it is stowed, why it is asked for. */
export function PartsPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const text = query.get("text") ?? "";
  const sort = query.get("sort");
  const part = query.get("part");
  const { units } = usePreferences();
  const records = useRecords({
    label: "Part",
    ...(text === "" ? {} : { text }),
    ...(sort === undefined ? {} : { sort }),
  });
  const columns = useMemo(() => columnsOf(units, text), [units, text]);
  return (
    <ListPage
      question="What parts are there, and what is known of each?"
      sentence={
        records.total === 0
          ? text === ""
            ? "No part is on file yet."
            : `No part answers to “${text}”.`
          : `${plural(records.total, "part")} on file${text === "" ? "" : ` that ${records.total === 1 ? "answers" : "answer"} to “${text}”`}.`
      }
      records={records}
      filters={
        <div className="list-tools">
          <ListFilter label="Narrow by number or words" text={text} />
          <AddRecord
            label="Part"
            links={[{ type: "MADE_BY", label: "Maker", isNeeded: true }]}
            fields={["partNumber", "description", "massKg", "shelfLifeMonths", "isSafety"]}
          />
        </div>
      }
      empty={
        text === "" ? (
          <FirstSteps list="Import a parts list" />
        ) : (
          <p>
            <a href={writeRoute("parts")}>Show all parts</a>
          </p>
        )
      }
      list={
        <DataTable
          caption="Parts"
          sorts
          columns={columns}
          rows={records.rows}
          rowKey={({ id }) => id}
          rowClass={({ id }) => (id === part ? "picked-row" : "")}
          onWindow={records.onWindow}
          onSort={(column, isDown) => {
            if (!sortable.has(column)) return false;
            changeQuery({ sort: `${isDown ? "-" : ""}${column}` }, true);
            return true;
          }}
        />
      }
      panel={
        part === undefined ? undefined : (
          <RecordPanel id={part} closeAddress={writeRoute("parts", [["text", text]])}>
            {({ record }) => (
              <>
                <PartAboard id={record.id} number={record.name} />
                <p className="record-ways">
                  <a
                    href={writeRoute("crossing", [
                      ["show", "all"],
                      ["part", record.id],
                    ])}
                  >
                    Why and how many for the crossing
                  </a>
                  <a href={writeRoute("suppliers", [["part", record.id]])}>
                    Its gear and suppliers as a picture
                  </a>
                </p>
              </>
            )}
          </RecordPanel>
        )
      }
    />
  );
}
