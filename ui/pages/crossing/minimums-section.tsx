import { useEffect, useState } from "react";
import type { KitRequest } from "../../../api/contract/kit.contract.ts";
import type { MinimumsAnswer } from "../../../api/contract/minimums.contract.ts";
import { AskedSection } from "../../components/asked-section.tsx";
import { Choice } from "../../components/choice.tsx";
import { wholeText } from "../../components/figures.ts";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import type { Explanation } from "../../components/why.tsx";
import { usePreferences } from "../../data/preferences.ts";
import { ListProblem, OwnListFields } from "./own-list.tsx";
import { type SaidNotices, unsaid } from "./unsaid.ts";

type MinimumList = MinimumsAnswer["lists"][number];
type Check = MinimumList["checks"][number];

const marks: Readonly<Record<Check["status"], { readonly mark: string; readonly look: string }>> = {
  met: { mark: "✓", look: "met" },
  "met with kit": { mark: "✓", look: "met" },
  short: { mark: "✕", look: "unmet" },
  "not applicable": { mark: "–", look: "" },
  "to be judged": { mark: "?", look: "" },
};

/** Worst first; a rule about gear that is not there last. */
const order: readonly Check["status"][] = [
  "short",
  "to be judged",
  "met with kit",
  "met",
  "not applicable",
];

const isCounted = ({ status }: Check) => status !== "not applicable" && status !== "to be judged";

const countedHow = {
  required:
    "From the rule: its number, times what it counts by (the ship, each unit, each kind), as the text says.",
  aboard:
    "Usable pieces aboard whose words, and where asked whose parts list, answer to the rule; no piece counts twice within one rule.",
  withKit: "Those aboard and those to buy, counted in the same way.",
} as const;

/** Why a rule's count is what it is. */
const whyCounted = (check: Check, id: keyof typeof countedHow): Explanation => ({
  what: check.words,
  how: countedHow[id],
  rests: [
    ...check.shares.map(
      ({ forWhat, required, aboard, withKit }) =>
        `${forWhat === "" ? "In all" : forWhat}: ${required} required, ${aboard} aboard, ${withKit} with the kit.`,
    ),
    ...check.parts
      .filter(({ aboard, notUsable, bought }) => aboard + notUsable + bought > 0)
      .slice(0, 8)
      .map(
        ({ part, aboard, notUsable, bought }) =>
          `${part}: ${aboard} aboard${notUsable > 0 ? `, ${notUsable} not usable` : ""}, ${bought} to buy.`,
      ),
  ].join(" "),
  change: `Another count aboard, or more to buy. Read the text in force: ${[check.source, check.place].filter((text) => text !== "").join(", ")}.`,
});

const counted = (
  id: "required" | "aboard" | "withKit",
  name: string,
  className = "",
): Column<Check> => ({
  id,
  name,
  kind: "number",
  className,
  cell: (check) => (isCounted(check) ? wholeText(check[id]) : "–"),
  value: (check) => (isCounted(check) ? check[id] : null),
  why: (check) => whyCounted(check, id),
});

/** What is aboard that answers to the words of a rule but fits none of its gear by the parts lists. */
const unlistedText = ({ unlisted }: Check): string =>
  unlisted.length === 0
    ? ""
    : ` Aboard but on no parts list of this gear: ${unlisted.map(({ part }) => part).join("; ")}.`;

const columns: readonly Column<Check>[] = [
  {
    id: "asks",
    name: "What it asks",
    kind: "name",
    className: "stick rule-asks",
    cell: ({ asks, place }) => (
      <>
        {asks} <span className="part-description">{place}</span>
      </>
    ),
    value: ({ asks, place }) => (place === "" ? asks : `${asks} (${place})`),
  },
  {
    id: "status",
    name: "State",
    cell: ({ status }) => (
      <span className={marks[status].look}>
        {marks[status].mark} {status}
      </span>
    ),
    value: ({ status }) => order.indexOf(status),
  },
  counted("required", "Required"),
  counted("aboard", "Aboard now"),
  counted("withKit", "With the kit", "strong"),
  {
    id: "why",
    name: "Why",
    kind: "wordy",
    cell: (check) => `${check.words}${unlistedText(check)}`,
  },
];

function ListTable({ list }: { readonly list: MinimumList }) {
  const rows = [...list.checks].sort((a, b) => order.indexOf(a.status) - order.indexOf(b.status));
  const sources = [...new Set(list.checks.map(({ source }) => source))];
  return (
    <>
      <h3>{list.title}</h3>
      <p className="said">
        {list.applies === "" ? "" : `${list.applies.replace(/\.$/, "")}. `}Source:{" "}
        {sources.join("; ")}.
      </p>
      <DataTable
        caption={list.title}
        sorts
        columns={columns}
        rows={rows}
        rowKey={({ place, asks }) => `${place} ${asks}`}
      />
    </>
  );
}

/** What is aboard and in the kit, held against the published minimum lists, or one's own, rule by rule. */
export function MinimumsSection({
  request,
  said,
}: {
  readonly request: KitRequest;
  readonly said: SaidNotices;
}) {
  const { ownList } = usePreferences();
  const [isOwn, setOwn] = useState(ownList !== null);
  const own = isOwn ? ownList : null;
  useEffect(() => setOwn(ownList !== null), [ownList]);
  return (
    <AskedSection<MinimumsAnswer>
      id="minimums"
      title={
        own === null ? "Do the published minimum lists hold?" : "Does your own minimum list hold?"
      }
      lead={`What is aboard, and what the kit adds, is counted against each rule of ${own === null ? "the published lists" : own.name}. No statement of compliance: the text in force decides.`}
      deed={
        own === null ? "Hold the kit against minimum lists" : `Hold the kit against ${own.name}`
      }
      working="Counting what is aboard against each rule…"
      path="/api/minimums"
      request={own === null ? request : { ...request, own }}
      refusal={(problem, again) =>
        own === null ? null : <ListProblem problem={problem} again={again} />
      }
      inputs={
        <>
          <OwnListFields own={ownList} />
          {ownList !== null && (
            <div className="settings">
              <Choice
                label="Hold it against"
                value={isOwn ? "own" : "published"}
                groups={[
                  {
                    name: "",
                    options: [
                      { id: "own", name: ownList.name },
                      { id: "published", name: "the published lists" },
                    ],
                  },
                ]}
                onChange={(id) => setOwn(id === "own")}
              />
            </div>
          )}
        </>
      }
    >
      {(answer) => (
        <>
          <Answered sentence={answer.sentence} waiting={false} />
          <SideBySide comparison={answer.comparison} of="the minimum lists" />
          {answer.lists.map((list) => (
            <ListTable key={list.id} list={list} />
          ))}
          <Notices notices={unsaid(answer.notices, said)} />
        </>
      )}
    </AskedSection>
  );
}
