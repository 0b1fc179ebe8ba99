import { useMemo } from "react";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { dayText, measureText, plural, wholeText } from "../../components/figures.ts";
import { FirstSteps } from "../../components/first-steps.tsx";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { ask } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { useRecords } from "../../data/use-records.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { AddRecord } from "../records/add-record.tsx";
import { ListFilter } from "../records/list-filter.tsx";
import { ListPage } from "../records/list-page.tsx";
import { dateColumn, numberColumn, numberOf, ownerOf } from "../records/record-columns.ts";
import { RecordPanel } from "../records/record-panel.tsx";
import { type ItemFacts, itemFacts } from "./item-facts.ts";

const all = "all";

type Kept = readonly (readonly [string, string])[];

const columnsOf = (
  kept: Kept,
  facts: ReadonlyMap<string, ItemFacts> | undefined,
): readonly Column<RecordDocument>[] => [
  {
    id: "position",
    name: "Position",
    kind: "name",
    share: 1.6,
    cell: (item) =>
      item.label === "" ? (
        "…"
      ) : (
        <a className="row-link" href={writeRoute("gear", [...kept, ["item", item.id]])}>
          {item.name}
        </a>
      ),
    value: (item) => item.name,
  },
  {
    id: "FITTED_ON",
    name: "Vessel",
    cell: (item) => ownerOf(item, "FITTED_ON")?.name ?? "–",
    value: (item) => ownerOf(item, "FITTED_ON")?.name ?? null,
  },
  {
    id: "IS_MODEL",
    name: "Model",
    cell: (item) => {
      const model = ownerOf(item, "IS_MODEL");
      return model === undefined ? (
        "–"
      ) : (
        <a className="row-link" href={writeRoute("gear", [...kept, ["model", model.id]])}>
          {model.name}
        </a>
      );
    },
    value: (item) => ownerOf(item, "IS_MODEL")?.name ?? null,
  },
  {
    id: "functions",
    name: "Function",
    share: 1.4,
    cell: (item) =>
      (facts?.get(item.id)?.functions ?? []).map(({ name, tier }) => (
        <div key={name}>
          {name} {tier !== undefined && <TierSign tier={tier} />}
        </div>
      )),
    value: (item) =>
      facts
        ?.get(item.id)
        ?.functions.map(({ name }) => name)
        .join(", ") ?? null,
  },
  {
    id: "service",
    name: "Next service",
    cell: (item) => {
      const service = facts?.get(item.id)?.service;
      if (service === undefined) return "–";
      return (
        <>
          {service.name}
          <br />
          <span className={service.overdue ? "unmet" : "said"}>
            {service.dueOn === null
              ? "▵ last time not known"
              : `${service.overdue ? "✕ was due" : "due"} ${dayText(service.dueOn)}`}
          </span>
        </>
      );
    },
    value: (item) => facts?.get(item.id)?.service?.dueOn ?? null,
  },
  numberColumn("hoursPerDay", "Hours a day", measureText, {
    share: 0.7,
    why: (item) => ({
      what:
        numberOf(item, "hoursPerDay") === undefined
          ? `How many hours a day ${item.name} runs on passage is not known.`
          : `${item.name} is taken to run ${measureText(numberOf(item, "hoursPerDay") ?? 0)} hours a day on passage.`,
      how: "As stated for the position. Rates and lives by the hour are multiplied by it; where it is not known, 24 hours a day are taken, the safe side.",
      rests: "The gear list or whoever typed it: open the item for when and by whom.",
      change: "Correct it in the item; the kit follows.",
    }),
    leftOut: "when narrow",
  }),
  numberColumn("hoursRun", "Hours run", wholeText, {
    share: 0.7,
    leftOut: "when narrow",
    why: (item) => ({
      what:
        numberOf(item, "hoursRun") === undefined
          ? `How long ${item.name} has run is not known.`
          : `${item.name} has run ${wholeText(numberOf(item, "hoursRun") ?? 0)} hours.`,
      how: "As stated, and brought forward when a use or a service tells the hours. It gives the age of parts that wear and when services by hours fall due.",
      rests:
        "The gear list, the service log or whoever typed it: open the item for when and by whom.",
      change: "Correct it in the item, or tell the hours when a piece is used.",
    }),
  }),
  { ...dateColumn("fittedOn", "Fitted"), share: 0.8, leftOut: "when narrow" },
];

const unknownHours = (items: readonly RecordDocument[]) =>
  items.filter(
    (item) =>
      numberOf(item, "hoursPerDay") === undefined &&
      numberOf(item, "operationsPerDay") === undefined,
  ).length;

/** What is fitted where, of which make, how long it has run. */
export function GearPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const vessel = query.get("vessel") ?? "";
  const text = query.get("text") ?? "";
  const picked = query.get("item") ?? query.get("model");
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const records = useRecords({ label: "FittedItem", ...(text === "" ? {} : { text }) }, true);
  const items = useMemo(
    () =>
      vessel === ""
        ? records.rows
        : records.rows.filter((item) => ownerOf(item, "FITTED_ON")?.id === vessel),
    [records.rows, vessel],
  );
  const kept: Kept = useMemo(
    () => [
      ["vessel", vessel],
      ["text", text],
    ],
    [vessel, text],
  );
  const facts = useAnswer<ReadonlyMap<string, ItemFacts>>("item facts", itemFacts);
  const columns = useMemo(() => columnsOf(kept, facts.value), [kept, facts.value]);
  const models = new Set(items.map((item) => ownerOf(item, "IS_MODEL")?.id)).size;
  const unknown = unknownHours(items);
  const name = overview.value?.vessels.find(({ id }) => id === vessel)?.name;
  return (
    <ListPage
      question="What is fitted, and where?"
      sentence={
        records.isWaiting && records.rows.some(({ label }) => label === "")
          ? `${plural(records.total, "item")} on file; counting their models…`
          : items.length === 0
            ? text === ""
              ? "No gear is on file yet."
              : `No gear answers to “${text}”.`
            : `${plural(items.length, "item")} of ${plural(models, "model")} ${name === undefined ? "are fitted in all" : `are fitted on ${name}`}${unknown > 0 ? `; of ${wholeText(unknown)} it is not known how much they run` : ""}.`
      }
      records={records}
      filters={
        <div className="list-tools">
          <Choice
            label="Vessel"
            value={vessel === "" ? all : vessel}
            groups={[
              {
                name: "",
                options: [{ id: all, name: "every vessel" }, ...(overview.value?.vessels ?? [])],
              },
            ]}
            onChange={(id) => changeQuery({ vessel: id === all ? "" : id })}
          />
          <ListFilter label="Narrow by position or words" text={text} />
          <AddRecord
            label="FittedItem"
            links={[
              vessel === ""
                ? { type: "FITTED_ON", label: "Vessel", isNeeded: true }
                : { type: "FITTED_ON", label: "Vessel", isNeeded: true, value: vessel },
              { type: "IS_MODEL", label: "Model", isNeeded: true },
            ]}
            fields={["position", "serial", "hoursPerDay", "fittedOn", "hoursRun"]}
          />
        </div>
      }
      empty={
        text === "" && vessel === "" ? (
          <FirstSteps list="Import a list of gear" />
        ) : (
          <p>
            <a href={writeRoute("gear")}>Show all gear</a>
          </p>
        )
      }
      list={
        <DataTable
          caption="Fitted gear"
          sorts
          columns={columns}
          rows={items}
          rowKey={({ id }) => id}
          rowClass={({ id }) => (id === picked ? "picked-row" : "")}
        />
      }
      panel={
        picked === undefined ? undefined : (
          <RecordPanel id={picked} closeAddress={writeRoute("gear", kept)}>
            {({ record }) =>
              record.label === "Model" && (
                <p className="record-ways">
                  <a href={writeRoute("suppliers", [["model", record.id]])}>
                    Its parts and suppliers as a picture
                  </a>
                  <a href={writeRoute("commonality", [["replace", record.id]])}>
                    Suppose it were replaced
                  </a>
                </p>
              )
            }
          </RecordPanel>
        )
      }
    />
  );
}
