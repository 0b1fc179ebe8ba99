import { type NeedName, needOf } from "../../graph-schema/needs.ts";
import { readFigure } from "./read-figure.ts";

type Units = "metric" | "imperial";

interface NeedUnit {
  readonly name: string;
  /** How many of the graph's unit one of it is. */
  readonly factor: number;
}

/**
 * Units people give a need in besides the graph's own. Exact by definition: pound 0.45359237 kg and inch 25.4 mm
 * (agreement of 1959), US gallon 231 cubic inches = 3.785411784 l; horsepower 550 ft·lbf/s = 0.745 699 871 582 kW, metric
 * tonne 1000 kg. Source: NIST Special Publication 811 (2008), appendix B.
 */
const imperial: Partial<Record<NeedName, NeedUnit>> = {
  workingLoadKg: { name: "lb", factor: 0.45359237 },
  drumDiameterMm: { name: "in", factor: 25.4 },
  lineDiameterMm: { name: "in", factor: 25.4 },
  flowLitresPerHour: { name: "US gal/h", factor: 3.785411784 },
  powerKw: { name: "hp", factor: 0.745699871582 },
};
const others: Partial<Record<NeedName, readonly NeedUnit[]>> = {
  workingLoadKg: [
    { name: "t", factor: 1000 },
    { name: "lbs", factor: 0.45359237 },
  ],
  flowLitresPerHour: [{ name: "l/min", factor: 60 }],
  powerKw: [{ name: "W", factor: 0.001 }],
};

/** The unit a need is shown in to a reader. */
export const needUnit = (name: NeedName, units: Units): NeedUnit =>
  (units === "imperial" ? imperial[name] : undefined) ?? {
    name: needOf(name).unitWords,
    factor: 1,
  };

/** A need's figure in the reader's unit, without the unit; as many digits as it bears. */
export const needText = (name: NeedName, value: number, units: Units): string =>
  String(Number((value / needUnit(name, units).factor).toPrecision(6)));

/** The figure with its unit: `900 kg`, `2000 lb`, `48`. */
export const needWithUnit = (name: NeedName, value: number, units: Units): string =>
  `${needText(name, value, units)} ${needUnit(name, units).name}`.trim();

/** What a need is called with its unit, as a field's label: `Safe working load, kg`. */
export function needLabel(name: NeedName, units: Units): string {
  const { words } = needOf(name);
  const unit = needUnit(name, units).name;
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}${unit === "" ? "" : `, ${unit}`}`;
}

/** The figure typed for a need, in the graph's unit; read in the reader's unit where it names none. */
export function readNeed(
  name: NeedName,
  text: string,
  units: Units,
): { readonly value: number | undefined } | { readonly fault: string } {
  const [, figure = "", written = ""] = /^([\d\s.,\u202f]*)(.*)$/.exec(text.trim()) ?? [];
  const own = needUnit(name, units);
  const known: readonly NeedUnit[] = [
    own,
    { name: needOf(name).unitWords, factor: 1 },
    ...(imperial[name] === undefined ? [] : [imperial[name]]),
    ...(others[name] ?? []),
  ].filter((unit) => unit.name !== "");
  const wanted = written.trim().toLowerCase().replace(/\.$/, "");
  const unit = wanted === "" ? own : known.find((one) => one.name.toLowerCase() === wanted);
  if (unit === undefined) {
    if (figure.trim() === "") return { fault: "Write a number." };
    const names = [...new Set(known.map((one) => one.name))];
    return {
      fault:
        names.length === 0 ? "Write a number without a unit." : `Give it in ${names.join(" or ")}.`,
    };
  }
  const found = readFigure(figure, Number.POSITIVE_INFINITY);
  if (typeof found === "string") return { fault: found };
  if (found === undefined) return { value: undefined };
  const value = Number((found * unit.factor).toPrecision(9));
  const { max } = needOf(name);
  if (value > max) return { fault: `At most ${needWithUnit(name, max, units)}.` };
  return { value };
}
