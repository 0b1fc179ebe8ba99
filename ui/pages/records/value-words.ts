import type { PropertyDocument, RecordDocument } from "../../../api/contract/records.contract.ts";
import { dayText, measureText, moneyAmountText, plural } from "../../components/figures.ts";
import { kindWord } from "../../components/kind-words.ts";

const unitWords: Readonly<Record<string, string>> = {
  litre: "l",
  hour: "h",
  "hour/day": "h a day",
  "operation/day": "a day",
  volt: "V",
  "kilogram-force": "kgf",
  millimetre: "mm",
  kilowatt: "kW",
  "litre/hour": "l/h",
  month: "months",
  year: "years",
  day: "days",
  "1": "",
};

/** Properties whose own name would read badly as words. */
const names: Readonly<Record<string, string>> = {
  isSafety: "safety gear",
  asOf: "price of",
  mtbfHours: "mean time between failures",
  need: "needs at least",
  lastDone: "last done",
};

/** "hours per day" for hoursPerDay. */
export const propertyWord = (property: string): string =>
  names[property] ??
  (kindWord(property.replace(/(Minor|Kg|Litres|Months|Days|Hours|Mm)$/, "")) || kindWord(property));

/** A value as a person reads it, with its unit. */
export function valueWords(
  field: Pick<PropertyDocument, "kind" | "unit">,
  value: unknown,
  properties: RecordDocument["properties"],
): string {
  if (value === undefined || value === null) return "";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (field.kind === "money" && typeof value === "number") {
    const currency = properties["currency"];
    return typeof currency === "string"
      ? `${moneyAmountText(value, currency)} ${currency}`
      : `${value / 100}`;
  }
  if (typeof value === "number") {
    const unit =
      field.unit === undefined || field.unit === "minor unit"
        ? ""
        : (unitWords[field.unit] ?? field.unit);
    if (field.unit === "piece") return plural(value, "piece");
    return unit === "" ? measureText(value) : `${measureText(value)} ${unit}`;
  }
  if (field.kind === "date" && typeof value === "string") return dayText(value);
  if (typeof value === "string") return value;
  return JSON.stringify(value);
}

/** What stands in the field while it is edited: as it would be typed. */
export function typedValue(
  field: Pick<PropertyDocument, "kind">,
  value: unknown,
  properties: RecordDocument["properties"],
): string {
  if (value === undefined || value === null) return "";
  if (field.kind === "money") return valueWords(field, value, properties).replaceAll("\u202f", "");
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}
