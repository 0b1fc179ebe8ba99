import type { KitRequest } from "../../../api/contract/kit.contract.ts";
import type { SimulationAnswer } from "../../../api/contract/simulation.contract.ts";
import { AskedSection } from "../../components/asked-section.tsx";
import { measureText, wholeText } from "../../components/figures.ts";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices } from "../../components/notice.tsx";
import { besideShareText, shareWithRange } from "../../components/share-text.ts";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { type SaidNotices, unsaid } from "./unsaid.ts";

type Tier = SimulationAnswer["tiers"][number];
type Played = SimulationAnswer["functions"][number];
type Compared = Tier["withKit"];

const tierColumn = {
  id: "tier",
  name: "Tier",
  cell: ({ tier }: { readonly tier: Tier["tier"] }) => <TierSign tier={tier} />,
  value: ({ tier }: { readonly tier: Tier["tier"] }) => tier,
} as const;

const played = <Row,>(
  id: string,
  name: string,
  of: (row: Row) => Compared["simulated"],
  className = "",
): Column<Row> => ({
  id,
  name,
  kind: "number",
  className,
  cell: (row) => {
    const [share, range] = shareWithRange(of(row));
    return (
      <>
        {share} <span className="share-range">{range}</span>
      </>
    );
  },
  value: (row) => of(row).value,
  why: (row) => {
    const [share, range] = shareWithRange(of(row));
    return {
      what: `On a share of ${share} of the crossings played this held; the true chance lies in ${range} with 95 % confidence.`,
      how: "Crossings in which it held, divided by crossings played; the interval is Wilson's for a share. Each crossing draws its failures by chance, hour by hour, and uses up the spares.",
      rests: "The same rates, lives and services as the formulas. No formula enters.",
      change: "More crossings narrow the interval; other rates, days or spares move the share.",
    };
  },
});

const reckoned = (id: string, of: (row: Tier) => Compared): Column<Tier> => ({
  id,
  name: "Reckoned",
  kind: "number",
  cell: (row) => {
    const { simulated, computed, inside } = of(row);
    return (
      <>
        {besideShareText(computed, computed, simulated)}{" "}
        <span className={inside ? "met" : ""}>{inside ? "✓ inside" : "✕ outside"}</span>
      </>
    );
  },
  value: (row) => of(row).computed,
  why: (row) => ({
    what: of(row).inside
      ? "What the formulas say lies inside the interval of what was played."
      : "What the formulas say lies outside the interval of what was played. By chance alone this happens in 1 of 20 such figures.",
    how: "The chances of all parts of the tier that demand does not exceed what is aboard, multiplied.",
    change: "Where playing and reckoning differ by design is said below.",
  }),
});

const tierColumns: readonly Column<Tier>[] = [
  { ...tierColumn, kind: "name" },
  played("kit", "With the kit, played", ({ withKit }: Tier) => withKit.simulated, "strong"),
  reckoned("kit-reckoned", ({ withKit }) => withKit),
  played("aboard", "Aboard now, played", ({ withAboard }: Tier) => withAboard.simulated),
  reckoned("aboard-reckoned", ({ withAboard }) => withAboard),
  { id: "parts", name: "Parts", kind: "number", cell: ({ parts }) => wholeText(parts) },
];

const functionColumns: readonly Column<Played>[] = [
  {
    id: "function",
    name: "Function",
    kind: "name",
    className: "stick name-wraps",
    cell: (row) => row.function.name,
  },
  played("lived", "With the kit, as lived", ({ withKit }: Played) => withKit.asLived, "strong"),
  played("counted", "With the kit, as counted", ({ withKit }: Played) => withKit.asCounted),
  {
    id: "reckoned",
    name: "Reckoned",
    kind: "number",
    cell: ({ withKit }) =>
      besideShareText(withKit.computed, withKit.computedAtMost, withKit.asCounted),
    value: ({ withKit }) => withKit.computed,
    why: (row) => ({
      what: row.words,
      how: "By the formulas: from spares and from gear that can be spared, at least and at most where the order of events decides.",
      change:
        "Compare with “as counted”: there every demand falls on running gear, as in the formulas.",
    }),
  },
  played("aboard", "Aboard now, as lived", ({ withAboard }: Played) => withAboard.asLived),
  tierColumn,
  { id: "need", name: "Needs", kind: "number", cell: ({ need, fitted }) => `${need} of ${fitted}` },
];

function Result({
  answer,
  said,
}: {
  readonly answer: SimulationAnswer;
  readonly said: SaidNotices;
}) {
  const { aboard, kit } = answer;
  return (
    <>
      <Answered sentence={answer.sentence} waiting={false} />
      <SideBySide comparison={answer.comparison} of="the crossing played" />
      <p className="said">Shares of the crossings played, each with its 95 % interval.</p>
      <DataTable
        caption="No part runs short, by tier"
        captionShown
        columns={tierColumns}
        rows={answer.tiers}
        rowKey={({ tier }) => tier}
      />
      {answer.functions.length > 0 && (
        <DataTable
          caption="What keeps working"
          captionShown
          className="kit-box"
          sorts
          columns={functionColumns}
          rows={answer.functions}
          rowKey={(row) => row.function.id}
        />
      )}
      <p className="said">
        In a mean crossing {measureText(answer.demandsPerCrossing)} pieces are asked for. With what
        is aboard now {measureText(aboard.itemsStopped)} items stop and{" "}
        {measureText(aboard.piecesRobbed)} pieces are taken from other gear; with the kit{" "}
        {measureText(kit.itemsStopped)} and {measureText(kit.piecesRobbed)}. The same start number,{" "}
        {answer.seed}, gives the same figures on any machine.
      </p>
      <Notices notices={unsaid(answer.notices, said)} />
      <h3>Where playing and reckoning differ by design</h3>
      <ul className="plain-list">
        {answer.differences.map((difference) => (
          <li key={difference}>{difference}</li>
        ))}
      </ul>
    </>
  );
}

/** The crossing played event by event beside what the formulas say. */
export function SimulationSection({
  request,
  said,
}: {
  readonly request: KitRequest;
  readonly said: SaidNotices;
}) {
  return (
    <AskedSection<SimulationAnswer>
      id="simulation"
      title="What if the crossing is played many times?"
      lead="The crossing is played 100 000 times, failure by failure, with what is aboard and with the kit. The figures above come from formulas; this looks whether they hold."
      deed="Play the crossing 100 000 times"
      working="Playing the crossing 100 000 times; half a minute on a small machine…"
      path="/api/simulation"
      request={request}
    >
      {(answer) => <Result answer={answer} said={said} />}
    </AskedSection>
  );
}
