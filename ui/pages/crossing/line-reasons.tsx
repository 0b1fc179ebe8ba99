import type { KitLine } from "../../../api/contract/kit.contract.ts";
import {
  chanceText,
  measureText,
  plural,
  sufficiencyText,
  wholeText,
} from "../../components/figures.ts";
import { EvidenceSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { massText, massUnit } from "../../components/units.ts";
import { usePreferences } from "../../data/preferences.ts";

type Reason = KitLine["reasons"][number];

const columns: readonly Column<Reason>[] = [
  { id: "gear", name: "Gear", kind: "name", cell: ({ gear }) => gear },
  { id: "items", name: "Fitted", kind: "number", cell: ({ items }) => wholeText(items) },
  {
    id: "each",
    name: "Each takes",
    kind: "number",
    cell: ({ quantityEach }) => measureText(quantityEach),
  },
  {
    id: "mean",
    name: "Expected need",
    kind: "number",
    cell: ({ meanDemand }) => measureText(meanDemand),
    value: ({ meanDemand }) => meanDemand,
    why: (reason) => ({
      what: `${measureText(reason.meanDemand)} pieces are expected to be asked for by ${reason.gear}.`,
      how: "Pieces fitted times how often each fails on the crossing, by its rate or life and the hours it runs; a service asks for its pieces each time it falls due.",
      rests: `${reason.words}. Evidence: ${reason.evidence}.`,
      change: "Another rate or interval, hours a day, or days at sea.",
    }),
  },
  {
    id: "evidence",
    name: "Evidence",
    cell: ({ evidence }) => <EvidenceSign evidence={evidence} />,
    value: ({ evidence }) => evidence,
  },
  {
    id: "words",
    name: "Reason",
    kind: "wordy",
    cell: ({ words, stops }) => `${words}${stops ? "" : " (does not stop it)"}`,
  },
];

/** Why a part is on the list: each gear that asks, by which evidence, in words. */
export function LineReasons({ line }: { readonly line: KitLine }) {
  const { units } = usePreferences();
  const facts: readonly (readonly [term: string, fact: string, isDoubtful?: boolean] | false)[] = [
    ["Running short with what is aboard", chanceText(line.shortWithAboard)],
    ["Expected need in all", measureText(line.meanDemand)],
    line.assumedShare > 0 && [
      "Share resting on assumed rates",
      sufficiencyText(line.assumedShare),
      true,
    ],
    line.credit > 0 && ["May be taken from redundant gear", plural(line.credit, "piece")],
    line.notUsable > 0 && [
      "Aboard but not counted (out of date or condition)",
      plural(line.notUsable, "piece"),
      true,
    ],
    line.alternates.length > 0 && [
      "Interchanges with",
      line.alternates.map((part) => part.name).join(", "),
    ],
    line.massKg !== undefined && [
      "Weight of a piece",
      `${massText(line.massKg, units)} ${massUnit(units)}`,
    ],
  ];
  return (
    <div className="why">
      <p>{line.words}</p>
      {line.reasons.length > 0 && (
        <DataTable
          caption={`Gear that asks for ${line.partNumber}`}
          className="why-table"
          columns={columns}
          rows={line.reasons}
          rowKey={(reason) => reason.gear + reason.model.id}
        />
      )}
      <dl className="why-facts">
        {facts.map(
          (fact) =>
            fact !== false && (
              <div key={fact[0]}>
                <dt>{fact[0]}</dt>
                <dd className={fact[2] === true ? "doubt" : ""}>{fact[1]}</dd>
              </div>
            ),
        )}
      </dl>
    </div>
  );
}
