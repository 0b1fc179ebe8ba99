import { useMemo } from "react";
import type { Comparison } from "../../../api/contract/what-if.contract.ts";
import { usePreferences } from "../../data/preferences.ts";
import {
  indexText,
  measureText,
  moneyAmountText,
  plural,
  sufficiencyText,
  wholeText,
} from "../figures.ts";
import type { Column } from "../table/column.ts";
import { DataTable } from "../table/data-table.tsx";
import { massText, massUnit, roomText, roomUnit } from "../units.ts";

type Figure = Comparison["figures"][number];
type Part = Comparison["parts"][number];
type Listed = NonNullable<Comparison["listed"]>[number];
type Units = ReturnType<typeof usePreferences>["units"];

function amountText({ kind, currency = "EUR" }: Figure, amount: number, units: Units): string {
  switch (kind) {
    case "money":
      return moneyAmountText(amount, currency);
    case "count":
      return wholeText(amount);
    case "chance":
      return sufficiencyText(amount);
    case "kg":
      return massText(amount, units);
    case "litres":
      return roomText(amount, units);
    case "index":
      return indexText(amount);
  }
}

/** The figure's name with its unit, where it has one. */
function nameText({ figure, kind, currency = "EUR" }: Figure, units: Units): string {
  const unit = {
    money: currency,
    kg: massUnit(units),
    litres: roomUnit(units),
    count: "",
    chance: "",
    index: "",
  }[kind];
  return unit === "" ? figure : `${figure}, ${unit}`;
}

/** A chance that moves by less reads alike on both sides but for its rounding. */
const leastChance = 5e-6;

const sideText = (figure: Figure, side: number | null, units: Units): string =>
  side === null ? "not known" : amountText(figure, side, units);

/** What is exact differs by any amount; the rest where it is written otherwise. */
function differs(figure: Figure, units: Units): boolean {
  const { kind, before, after, difference } = figure;
  if (before === null || after === null) return before !== after;
  if (kind === "money" || kind === "count") return difference !== 0;
  if (kind === "chance" && Math.abs(after - before) < leastChance) return false;
  return sideText(figure, before, units) !== sideText(figure, after, units);
}

const signed = (difference: number, text: string): string =>
  `${difference > 0 ? "+" : difference < 0 ? "−" : ""}${text}`;

function differenceText(figure: Figure, units: Units): string {
  const { kind, difference } = figure;
  if (difference === null) return "not known";
  const size = Math.abs(difference);
  return signed(
    difference,
    kind === "chance" ? measureText(size) : amountText(figure, size, units),
  );
}

const figureColumns = (units: Units): readonly Column<Figure>[] => [
  {
    id: "figure",
    name: "Figure",
    kind: "name",
    className: "stick name-wraps",
    cell: (row) => nameText(row, units),
  },
  {
    id: "before",
    name: "Before",
    kind: "number",
    cell: (row) => sideText(row, row.before, units),
    value: ({ before }) => before,
  },
  {
    id: "after",
    name: "After",
    kind: "number",
    className: "strong",
    cell: (row) => sideText(row, row.after, units),
    value: ({ after }) => after,
  },
  {
    id: "difference",
    name: "Change",
    kind: "number",
    cell: (row) => differenceText(row, units),
    value: ({ difference }) => difference,
  },
];

const partColumns: readonly Column<Part>[] = [
  {
    id: "part",
    name: "Part",
    kind: "name",
    className: "stick name-wraps",
    cell: ({ part }) => part,
  },
  { id: "before", name: "Before", kind: "number", cell: ({ before }) => wholeText(before) },
  {
    id: "after",
    name: "After",
    kind: "number",
    className: "strong",
    cell: ({ after }) => wholeText(after),
  },
  {
    id: "difference",
    name: "Change",
    kind: "number",
    cell: ({ difference }) => signed(difference, wholeText(Math.abs(difference))),
    value: ({ difference }) => difference,
  },
];

const listedColumns: readonly Column<Listed>[] = [
  {
    id: "what",
    name: "About",
    kind: "name",
    className: "stick name-wraps",
    cell: ({ what }) => what,
  },
  { id: "before", name: "Before", kind: "wordy", cell: ({ before }) => before ?? "not listed" },
  { id: "after", name: "After", kind: "wordy", cell: ({ after }) => after ?? "not listed" },
];

/** An answer before and after what was imagined: the sentence, the figures that differ, the parts, the lines. */
export function SideBySide({
  comparison,
  of,
}: {
  readonly comparison: Comparison | undefined;
  /** What is compared, to tell several on one page apart: "The kit". */
  readonly of: string;
}) {
  const { units } = usePreferences();
  const columns = useMemo(() => figureColumns(units), [units]);
  if (comparison === undefined) return null;
  const { sentence, figures, parts, listed = [], notices } = comparison;
  const moved = figures.filter((figure) => differs(figure, units));
  const same = figures.length - moved.length;
  return (
    <section className="side-by-side" aria-label={`Before and after: ${of}`}>
      <h3>Before and after: {of}</h3>
      <p className="lead-words">{sentence}</p>
      <div className="side-tables">
        <div>
          {moved.length > 0 && (
            <DataTable
              caption={`${of}: figures that differ`}
              columns={columns}
              rows={moved}
              rowKey={({ figure }) => figure}
            />
          )}
          {same > 0 && (
            <p className="said">
              {moved.length === 0 ? "All" : "The other"} {plural(same, "figure")}{" "}
              {same === 1 ? "stays as it is" : "stay as they are"}.
            </p>
          )}
        </div>
        {parts.length > 0 && (
          <div>
            <h4>{plural(parts.length, "part")} of which other numbers are needed</h4>
            <DataTable
              caption={`${of}: pieces that differ`}
              className="tall"
              columns={partColumns}
              rows={parts}
              rowKey={({ part }) => part}
            />
          </div>
        )}
      </div>
      {listed.length > 0 && (
        <>
          <h4>{plural(listed.length, "line")} said otherwise</h4>
          <DataTable
            caption={`${of}: what is said otherwise`}
            className="tall"
            columns={listedColumns}
            rows={listed}
            rowKey={({ what, before }) => `${what} ${before ?? ""}`}
          />
        </>
      )}
      {notices.map((notice) => (
        <p key={notice} className="said">
          {notice}
        </p>
      ))}
    </section>
  );
}
