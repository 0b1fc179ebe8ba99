import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { chanceText, plural } from "../../components/figures.ts";
import { betweenText } from "../../components/share-text.ts";
import { type TierName, TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";

const tierColumn = <Row extends { readonly tier: TierName }>(): Column<Row> => ({
  id: "tier",
  name: "Tier",
  cell: ({ tier }) => <TierSign tier={tier} />,
  value: ({ tier }) => tier,
});

const methodWords: Readonly<Record<KitAnswer["functions"][number]["method"], string>> = {
  robbing:
    "Items of one make lend each other parts: the function lasts as long as enough items can be kept whole from spares and from each other.",
  "convolution of mixed models":
    "Items of several makes: the chance of each number of items lost is worked out make by make, then the makes are put together.",
  "no robbing": "Each item keeps to its own spares; the function lasts while enough items do.",
  "no credit": "Safety gear lends nothing: the parts of every item must suffice by themselves.",
  "makes that share parts":
    "The makes share parts that stop them: reckoned from below and from above.",
};

const inexactWords =
  "Services or other gear may take the same parts, or makes share them, so the order of events decides between the least and the most given; playing the crossing, below, says where between.";

const functionColumns: readonly Column<KitAnswer["functions"][number]>[] = [
  { id: "function", name: "Function", kind: "name", cell: (row) => row.function.name },
  tierColumn(),
  {
    id: "need",
    name: "Needs",
    kind: "number",
    cell: ({ need, fitted }) => `${need} of ${fitted}`,
    why: (row) => ({
      what: `“${row.function.name}” needs ${plural(row.need, "item")}; ${row.fitted} ${row.fitted === 1 ? "is" : "are"} fitted that serve it.`,
      how: "Stated with the function, not reckoned.",
      change: "The function's need, or gear that serves it, under Gear.",
    }),
  },
  {
    id: "aboard",
    name: "Aboard now",
    kind: "number",
    cell: ({ withAboard, withAboardAtMost }) => betweenText(withAboard, withAboardAtMost),
    value: ({ withAboard }) => withAboard,
    why: (row) => ({
      what: `With what is aboard now “${row.function.name}” lasts the crossing with a chance of ${betweenText(row.withAboard, row.withAboardAtMost)}.`,
      how: `${methodWords[row.method]}${row.isExact ? "" : ` ${inexactWords}`}`,
      change: `With the kit it is ${betweenText(row.withKit, row.withKitAtMost)}.`,
    }),
  },
  {
    id: "kit",
    name: "With the kit",
    kind: "number",
    className: "strong",
    cell: ({ withKit, withKitAtMost }) => betweenText(withKit, withKitAtMost),
    value: ({ withKit }) => withKit,
    why: (row) => ({
      what: row.words,
      how: `${methodWords[row.method]}${row.isExact ? "" : ` ${inexactWords}`}`,
      change: `With what is aboard now it is ${betweenText(row.withAboard, row.withAboardAtMost)}. A second item that serves the function, a surer tier, or gear of one make that can lend parts would raise it.`,
    }),
  },
  { id: "method", name: "Reckoned by", cell: ({ method }) => method },
  { id: "words", name: "In words", kind: "wordy", cell: ({ words }) => words },
];

/** Whether each function survives the crossing: with what is aboard, and with the kit. */
export function FunctionTable({ answer }: { readonly answer: KitAnswer }) {
  if (answer.functions.length === 0) return null;
  return (
    <section aria-labelledby="functions-title">
      <h2 id="functions-title">What still works on arrival</h2>
      <DataTable
        caption="Chance that each function lasts the crossing"
        sorts
        columns={functionColumns}
        rows={answer.functions}
        rowKey={(row) => row.function.id}
      />
    </section>
  );
}

const riskColumns: readonly Column<KitAnswer["unsparable"][number]>[] = [
  {
    id: "part",
    name: "Part",
    kind: "name",
    cell: ({ part, description }) => (
      <>
        {part.name} <span className="part-description">{description}</span>
      </>
    ),
    value: ({ part, description }) => `${part.name} ${description}`,
  },
  { id: "gear", name: "Gear", cell: ({ gear }) => gear },
  tierColumn(),
  {
    id: "chance",
    name: "Chance it fails",
    kind: "number",
    cell: ({ chance }) => chanceText(chance),
    value: ({ chance }) => chance,
    why: (risk) => ({
      what: `The chance is ${chanceText(risk.chance)} that ${risk.gear} loses ${risk.part.name} at least once on the longest case.`,
      how: "One less the chance of no failure, from the part's rate or life and the hours the gear runs. No spare enters, since it cannot be fitted at sea.",
      rests:
        risk.stopsFunctions.length === 0
          ? ""
          : `It stops: ${risk.stopsFunctions.map(({ name }) => name).join(", ")}.`,
      change:
        "Renewing it before leaving, fewer hours a day, a second item that serves the function, or a way to fit it at sea.",
    }),
  },
  {
    id: "stops",
    name: "If it does",
    cell: ({ stops }) => (stops ? "the gear stops" : "the gear goes on, worse"),
  },
];

/** Failures no spare helps with: not fittable at sea. */
export function UnsparableTable({ answer }: { readonly answer: KitAnswer }) {
  if (answer.unsparable.length === 0) return null;
  return (
    <section aria-labelledby="unsparable-title">
      <h2 id="unsparable-title">What no spare will mend at sea</h2>
      <DataTable
        caption="Failures that cannot be mended at sea"
        sorts
        columns={riskColumns}
        rows={answer.unsparable}
        rowKey={(risk) => risk.part.id + risk.gear}
      />
    </section>
  );
}

const unknownColumns: readonly Column<KitAnswer["withoutEvidence"][number]>[] = [
  { id: "part", name: "Part", kind: "name", cell: ({ part }) => part.name },
  { id: "description", name: "Description", cell: ({ description }) => description },
  { id: "gear", name: "Gear", cell: ({ gear }) => gear },
];

/** Parts nothing is known of: not provided for, and said so. */
export function NoEvidenceTable({ answer }: { readonly answer: KitAnswer }) {
  const rows = answer.withoutEvidence;
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="no-evidence-title">
      <h2 id="no-evidence-title">Not provided for, for want of evidence</h2>
      <p>
        Of {plural(rows.length, "part")} it is not known how often it fails: none is in the kit, and
        none is in the figures above.
      </p>
      <details className="on-paper">
        <summary>{plural(rows.length, "part")} without evidence</summary>
        <DataTable
          caption="Parts without evidence"
          className="tall"
          sorts
          columns={unknownColumns}
          rows={rows}
          rowKey={(row) => row.part.id + row.gear}
        />
      </details>
    </section>
  );
}
