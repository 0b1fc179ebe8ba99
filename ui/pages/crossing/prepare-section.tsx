import { useMemo } from "react";
import type { KitRequest } from "../../../api/contract/kit.contract.ts";
import type { PrepareAnswer, PrepareJob } from "../../../api/contract/prepare.contract.ts";
import { AskedSection } from "../../components/asked-section.tsx";
import {
  dayText,
  measureText,
  moneyAmountText,
  plural,
  sufficiencyText,
  wholeText,
} from "../../components/figures.ts";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { massText, massUnit } from "../../components/units.ts";
import type { Explanation } from "../../components/why.tsx";
import { type Preferences, usePreferences } from "../../data/preferences.ts";
import { type SaidNotices, unsaid } from "./unsaid.ts";

const amount = ({ minor, currency }: PrepareJob["takesCost"]): string =>
  moneyAmountText(minor, currency);

const dueText = ({ dueOn, overdue, assumed }: PrepareJob): string =>
  overdue
    ? "overdue"
    : dueOn === undefined
      ? "–"
      : `${dayText(dueOn)}${assumed ? ", assumed" : ""}`;

const takesText = ({ takes }: PrepareJob): string =>
  takes.length === 0
    ? "It uses up no part."
    : `The work takes ${takes.map(({ part, pieces }) => `${measureText(pieces)} of ${part.name}`).join(", ")}, to be had ashore.`;

/** Why the kit is smaller once a piece of work is done. */
const whySaved = (job: PrepareJob): Explanation => ({
  what: job.words,
  how: "The kit is solved again, bought as it is sold, as if the work were done on the day of departure, and set against the kit without it.",
  rests: takesText(job),
  change: "When it was last done, its interval, the days at sea, or hours a day.",
});

const columnsOf = (
  currency: string,
  units: Preferences["units"],
): readonly Column<PrepareJob>[] => [
  {
    id: "job",
    name: "Work",
    kind: "name",
    className: "stick name-wraps",
    cell: ({ item, what, kind }) => (
      <>
        <span className="part-number">{item.name}</span>: {what}{" "}
        <span className="part-description">{kind === "service" ? "do it" : "renew it"}</span>
      </>
    ),
    value: ({ item, what }) => `${item.name}: ${what}`,
  },
  {
    id: "due",
    name: "Falls due",
    cell: dueText,
    value: ({ dueOn, overdue }) => (overdue ? "" : (dueOn ?? null)),
  },
  {
    id: "saves",
    name: `Kit less by, ${currency}`,
    kind: "number",
    className: "strong",
    cell: ({ saves }) => amount(saves.cost),
    value: ({ saves }) => saves.cost.minor,
    why: (job) => whySaved(job),
  },
  {
    id: "pieces",
    name: "Pieces less",
    kind: "number",
    cell: ({ saves: { pieces } }) => (pieces < 0 ? `${-pieces} more` : wholeText(pieces)),
    value: ({ saves }) => saves.pieces,
    why: (job) => whySaved(job),
  },
  {
    id: "mass",
    name: `Less to carry, ${massUnit(units)}`,
    kind: "number",
    cell: ({ saves }) => massText(saves.massKg, units),
    value: ({ saves }) => saves.massKg,
    why: (job) => whySaved(job),
  },
  {
    id: "takes",
    name: `Parts ashore, ${currency}`,
    kind: "number",
    cell: ({ takesCost }) => amount(takesCost),
    value: ({ takesCost }) => takesCost.minor,
    why: (job) => ({
      what: takesText(job),
      how: "Parts the work uses up, at the least price known, added up. They are bought for the work, beside the kit.",
      change: "Another price, or parts already ashore.",
    }),
  },
];

const tiers = ["safety", "passage", "comfort"] as const;

/** How the chance with what is aboard now moves when all the work is done. */
function allWords({ kit, all }: PrepareAnswer): string {
  const moved = tiers.filter(
    (tier) => sufficiencyText(kit.withAboard[tier]) !== sufficiencyText(all.kit.withAboard[tier]),
  );
  return moved.length === 0
    ? "With what is aboard now and nothing bought, no tier's chance of not running short moves by it."
    : `With what is aboard now and nothing bought, the chance of not running short moves by all of it: ${moved
        .map(
          (tier) =>
            `${tier} from ${sufficiencyText(kit.withAboard[tier])} to ${sufficiencyText(all.kit.withAboard[tier])}`,
        )
        .join(", ")}.`;
}

function Result({ answer, said }: { readonly answer: PrepareAnswer; readonly said: SaidNotices }) {
  const { units } = usePreferences();
  const { currency } = answer.kit.cost;
  const columns = useMemo(() => columnsOf(currency, units), [currency, units]);
  return (
    <>
      <Answered sentence={answer.sentence} waiting={false} />
      <SideBySide comparison={answer.comparison} of="work before leaving" />
      <p className="said">
        {plural(answer.looked, "piece")} of work tried. {allWords(answer)}
      </p>
      {answer.jobs.length > 0 && (
        <DataTable
          caption="Work before leaving, what saves most first"
          className="kit-box"
          sorts
          columns={columns}
          rows={answer.jobs}
          rowKey={({ item, what, kind }) => `${item.id} ${kind} ${what}`}
        />
      )}
      <Notices notices={unsaid(answer.notices, said)} />
    </>
  );
}

/** Services and replacements better done in port, with what each takes off the kit. */
export function PrepareSection({
  request,
  said,
}: {
  readonly request: KitRequest;
  readonly said: SaidNotices;
}) {
  return (
    <AskedSection<PrepareAnswer>
      id="prepare"
      title="What is better done before leaving?"
      lead="Each service that falls due and each ageing piece is tried as done in port, and the kit solved again without it."
      deed="Try the work before leaving"
      working="Solving the kit again for each piece of work…"
      path="/api/preparation"
      request={request}
    >
      {(answer) => <Result answer={answer} said={said} />}
    </AskedSection>
  );
}
