import { type ReactNode, useMemo } from "react";
import { Button } from "react-aria-components";
import type { ChoiceCandidate, ChooseAnswer } from "../../../api/contract/choose.contract.ts";
import { measureText, moneyAmountText, plural, wholeText } from "../../components/figures.ts";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { massText, massUnit, roomText, roomUnit } from "../../components/units.ts";
import { usePreferences } from "../../data/preferences.ts";
import { changeQuery } from "../../routing/route.ts";
import {
  boatReason,
  donorReason,
  evenReason,
  evidenceReason,
  kitReason,
  lastsReason,
  lastsText,
  leadReason,
  priceReason,
  sizeReason,
  sourceReason,
  varietyReason,
} from "./candidate-reasons.ts";

type Candidate = ChoiceCandidate;
type Money = NonNullable<Candidate["price"]>;
type Reason = typeof boatReason;

const unknown = "unknown";

const amount = (money: Money | null | undefined, currency: string): string =>
  money === null || money === undefined
    ? unknown
    : `${moneyAmountText(money.minor, money.currency)}${money.currency === currency ? "" : ` ${money.currency}`}`;

const make: Column<Candidate> = {
  id: "model",
  name: "Make",
  kind: "name",
  className: "stick name-wraps",
  cell: ({ model, maker, fittedNow, typedIn }) => (
    <>
      <span className="part-number">{model.name}</span>{" "}
      <span className="part-maker">{model.name.startsWith(maker) ? "" : maker}</span>
      {fittedNow > 0 && <span className="part-description">fitted now</span>}
      {typedIn && <span className="part-description">typed in</span>}
    </>
  ),
  value: ({ model }) => model.name,
};

/** A column of figures, each with its reasons. */
const figure =
  (answer: ChooseAnswer) =>
  (
    id: string,
    name: string,
    reason: Reason,
    cell: (candidate: Candidate) => ReactNode,
    value: (candidate: Candidate) => string | number | null,
    className?: string,
  ): Column<Candidate> => ({
    id,
    name,
    kind: "number",
    cell,
    value,
    why: (candidate) => reason(candidate, answer),
    ...(className === undefined ? {} : { className }),
  });

function moneyColumns(answer: ChooseAnswer): readonly Column<Candidate>[] {
  const { currency } = answer;
  const column = figure(answer);
  return [
    make,
    {
      id: "rank",
      name: "Rank",
      kind: "number",
      cell: ({ rank }) => rank ?? "–",
      value: ({ rank }) => rank,
    },
    column(
      "boat",
      `Gear and kit, ${currency}`,
      boatReason,
      ({ boat }) => amount(boat, currency),
      ({ boat }) => boat?.minor ?? null,
      "strong",
    ),
    column(
      "price",
      `A unit, ${currency}`,
      priceReason,
      ({ price, priceQuoted }) => amount(price ?? priceQuoted, currency),
      ({ price }) => price?.minor ?? null,
    ),
    column(
      "kit",
      `Kit of the boat, ${currency}`,
      kitReason,
      ({ kit }) => amount(kit?.cost, currency),
      ({ kit }) => kit?.cost.minor ?? null,
    ),
    column(
      "extra",
      "Over today's kit",
      kitReason,
      ({ kit }) =>
        kit?.extra === null || kit === null
          ? unknown
          : `${kit.extra.minor > 0 ? "+" : kit.extra.minor < 0 ? "−" : ""}${amount({ ...kit.extra, minor: Math.abs(kit.extra.minor) }, currency)}`,
      ({ kit }) => kit?.extra?.minor ?? null,
    ),
    column(
      "even",
      "Even with the best other at",
      evenReason,
      ({ breakEven }) => amount(breakEven[0]?.price, currency),
      ({ breakEven }) => breakEven[0]?.price.minor ?? null,
    ),
  ];
}

const signed = (value: number | null): string =>
  value === null
    ? unknown
    : value > 0
      ? `+${wholeText(value)}`
      : value < 0
        ? `−${wholeText(-value)}`
        : "0";

function spareColumns(
  answer: ChooseAnswer,
  units: "metric" | "imperial",
): readonly Column<Candidate>[] {
  const column = figure(answer);
  const least = ({ functions }: Candidate): number | null =>
    functions.length === 0 ? null : Math.min(...functions.map(({ atEqualSpend }) => atEqualSpend));
  return [
    make,
    column(
      "newParts",
      "New parts",
      varietyReason("newParts"),
      (one) => signed(one.newParts),
      (one) => one.newParts,
    ),
    column(
      "newKits",
      "Kits",
      varietyReason("newKits"),
      (one) => signed(one.newKits),
      (one) => one.newKits,
    ),
    column(
      "newSuppliers",
      "Suppliers",
      varietyReason("newSuppliers"),
      (one) => signed(one.newSuppliers),
      (one) => one.newSuppliers,
    ),
    column(
      "mass",
      `Kit, ${massUnit(units)}`,
      sizeReason,
      ({ kit }) =>
        kit === null || (kit.pieces > 0 && kit.massUnknownPieces >= kit.pieces)
          ? unknown
          : massText(kit.massKg, units),
      ({ kit }) => kit?.massKg ?? null,
    ),
    column(
      "room",
      `Kit, ${roomUnit(units)}`,
      sizeReason,
      ({ kit }) =>
        kit === null || (kit.pieces > 0 && kit.volumeUnknownPieces >= kit.pieces)
          ? unknown
          : roomText(kit.volumeLitres, units),
      ({ kit }) => kit?.volumeLitres ?? null,
    ),
    column(
      "lead",
      "Slowest part, days",
      leadReason,
      ({ worstLeadTimeDays }) =>
        worstLeadTimeDays === null ? unknown : wholeText(worstLeadTimeDays),
      ({ worstLeadTimeDays }) => worstLeadTimeDays,
    ),
    column(
      "sources",
      "One supplier only",
      sourceReason,
      ({ singleSourceParts, unsoldParts, partsListed }) =>
        partsListed === 0
          ? unknown
          : `${singleSourceParts}${unsoldParts === 0 ? "" : ` (+${unsoldParts} none)`}`,
      ({ singleSourceParts, partsListed }) => (partsListed === 0 ? null : singleSourceParts),
    ),
    column(
      "donor",
      "Found in other gear, %",
      donorReason,
      ({ donorChance }) =>
        donorChance === null ? "–" : measureText(Math.floor(donorChance * 100)),
      ({ donorChance }) => donorChance,
    ),
    column(
      "lasts",
      "Lasts, for today's money",
      lastsReason,
      (one) => {
        const chance = least(one);
        return chance === null ? (one.kit === null ? unknown : "none named") : lastsText(chance);
      },
      least,
    ),
    column(
      "evidence",
      "Without evidence",
      evidenceReason,
      ({ partsListed, partsWithoutEvidence }) =>
        partsListed === 0 ? "no list" : `${partsWithoutEvidence} of ${partsListed}`,
      ({ partsListed, partsWithoutEvidence }) =>
        partsListed === 0 ? null : partsWithoutEvidence / partsListed,
    ),
  ];
}

type FunctionRow = Candidate["functions"][number];
type Even = Candidate["breakEven"][number];

const functionColumns: readonly Column<FunctionRow>[] = [
  { id: "function", name: "Function", kind: "name", cell: (row) => row.function.name },
  {
    id: "tier",
    name: "Tier",
    cell: ({ tier }) => <TierSign tier={tier} />,
    value: ({ tier }) => tier,
  },
  {
    id: "protection",
    name: "At the same targets",
    kind: "number",
    cell: ({ atEqualProtection }) => lastsText(atEqualProtection),
  },
  {
    id: "spend",
    name: "For today's money",
    kind: "number",
    cell: ({ atEqualSpend }) => lastsText(atEqualSpend),
  },
];

const evenColumns = (currency: string): readonly Column<Even>[] => [
  { id: "against", name: "Against", kind: "name", cell: ({ against }) => against.name },
  {
    id: "price",
    name: `Costs the same at, ${currency}`,
    kind: "number",
    cell: ({ price }) => amount(price, currency),
    value: ({ price }) => price.minor,
  },
  {
    id: "room",
    name: "Room",
    kind: "number",
    cell: ({ room, price }) =>
      room === null
        ? "–"
        : room < 0
          ? `${moneyAmountText(-room, price.currency)} too dear`
          : moneyAmountText(room, price.currency),
    value: ({ room }) => room,
  },
];

function Detail({
  candidate,
  answer,
  out,
}: {
  readonly candidate: Candidate;
  readonly answer: ChooseAnswer;
  readonly out: readonly string[];
}) {
  const { model, words, functions, breakEven, typedIn, massEachKg } = candidate;
  const { units } = usePreferences();
  return (
    <div className="why">
      <p>{words}</p>
      {massEachKg !== null && (
        <p className="said">
          One weighs {massText(massEachKg, units)} {massUnit(units)}.
        </p>
      )}
      {functions.length > 0 && (
        <DataTable
          caption={`Functions with ${model.name}`}
          className="why-table"
          columns={functionColumns}
          rows={functions}
          rowKey={(row) => row.function.id}
        />
      )}
      {breakEven.length > 0 && (
        <DataTable
          caption={`Price at which ${model.name} breaks even`}
          className="why-table"
          columns={evenColumns(answer.currency)}
          rows={breakEven}
          rowKey={({ against }) => against.id}
        />
      )}
      {!typedIn && (
        <Button
          className="quiet screen-only"
          onPress={() => changeQuery({ out: [...out, model.id].join() })}
        >
          Leave {model.name} out
        </Button>
      )}
    </div>
  );
}

/** The makes side by side, the cheapest boat first: what they cost, then what they ask of the lockers and suppliers. */
export function CandidateTables({
  answer,
  out,
}: {
  readonly answer: ChooseAnswer;
  /** Makes left out so far. */
  readonly out: readonly string[];
}) {
  const { units } = usePreferences();
  const money = useMemo(() => moneyColumns(answer), [answer]);
  const spares = useMemo(() => spareColumns(answer, units), [answer, units]);
  const detail = useMemo(
    () => ({
      words: ({ model, typedIn, fittedNow }: Candidate) =>
        `More about ${model.name}${typedIn ? ", typed in" : ""}${fittedNow > 0 ? ", fitted now" : ""}`,
      show: (candidate: Candidate) => <Detail candidate={candidate} answer={answer} out={out} />,
    }),
    [answer, out],
  );
  const common = {
    sorts: true,
    rows: answer.candidates,
    rowKey: ({ model }: Candidate) => model.id,
    rowClass: ({ rank }: Candidate) => (rank === 1 ? "chosen" : ""),
  } as const;
  return (
    <>
      <h3>Money, at the same protection</h3>
      <DataTable
        caption="Makes side by side: money"
        className="kit-box choice-box"
        columns={money}
        detail={detail}
        {...common}
      />
      <h3>Spares and supply</h3>
      <DataTable
        caption="Makes side by side: spares and supply"
        className="kit-box choice-box"
        columns={spares}
        {...common}
      />
      <p className="said">
        Today {plural(answer.before.parts, "different part")},{" "}
        {plural(answer.before.kits, "different spares kit")} and{" "}
        {plural(answer.before.suppliers, "supplier")} at least.
      </p>
    </>
  );
}
