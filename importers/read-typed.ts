import {
  type NodeLabel,
  nodeDeclaration,
  type Properties,
  type RelationshipType,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../graph-schema/index.ts";
import type { Cell } from "./cells/cell.ts";
import { parseDuration } from "./cells/parse-duration.ts";
import { parseMoney } from "./cells/parse-money.ts";
import { cellReader } from "./columns/cell-reader.ts";
import type { FaultCode } from "./row-fault.ts";
import { type Target, targets } from "./targets.ts";

/** What a typed text means for a record: values to set (money brings its currency), nothing, or the rule it breaks. */
export type TypedValue =
  | { readonly kind: "values"; readonly values: Properties; readonly note?: string }
  | { readonly kind: "empty" }
  | { readonly kind: "fault"; readonly rule: string; readonly remedy: string };

/** Remedies for one typed value, where those of a column would speak of the file it stands in. */
const ownRemedies: Partial<Record<FaultCode, string>> = {
  "date-ambiguous": "Write it as YYYY-MM-DD.",
  "part-number-mangled": "Look the number up and type it as its maker writes it.",
};

/** A cell's fault without what it says of the rest of a column or file. */
const typedFault = ({ code, rule, remedy }: Extract<Cell<unknown>, { kind: "fault" }>) => ({
  kind: "fault" as const,
  rule: rule.replace(", and no other date of the column tells which", ""),
  remedy: (ownRemedies[code] ?? remedy).replace(", or say which decimal mark the file uses", ""),
});

const conventions = { number: "unknown", dateOrder: "unknown" } as const;

const declared = (owner: NodeLabel | RelationshipType) =>
  (relationshipTypeNames as readonly string[]).includes(owner)
    ? relationshipDeclaration(owner as RelationshipType).properties
    : nodeDeclaration(owner as NodeLabel).properties;

/**
 * Reads what a person typed for one property as the importer reads a cell: "2.5 lb", "30 USD", "31.3.2027", "yes".
 * What can be read in two ways (1,234; 03/04/2027) is a fault, never a guess. undefined: no such property.
 */
export function readTyped(
  owner: NodeLabel | RelationshipType,
  property: string,
  text: string,
  currency?: string,
): TypedValue | undefined {
  const target = targets.get(`${owner}.${property}`);
  if (target === undefined) return readDocument(owner, property, text);
  if (target.kind === "interval") return readInterval(text);
  if (target.kind === "money") return readPrice(target, text, currency);
  if (!Object.hasOwn(declared(owner), property)) return undefined;
  const cell = cellReader(target, conventions)(text);
  if (cell.kind === "fault") return typedFault(cell);
  if (cell.kind === "empty") return cell;
  return {
    kind: "values",
    values: { [property]: cell.value },
    ...(cell.note === undefined ? {} : { note: cell.note.text }),
  };
}

function readPrice(target: Target, text: string, currency: string | undefined): TypedValue {
  const cell = parseMoney(text, { convention: conventions.number, currency });
  if (cell.kind === "fault") return typedFault(cell);
  if (cell.kind === "empty") return cell;
  return {
    kind: "values",
    values: { [target.property]: cell.value.minor, currency: cell.value.currency },
    ...(cell.note === undefined ? {} : { note: cell.note.text }),
  };
}

function readInterval(text: string): TypedValue {
  const cell = parseDuration(text, conventions.number);
  if (cell.kind === "fault") return typedFault(cell);
  if (cell.kind === "empty") return cell;
  const { hours, months } = cell.value;
  return {
    kind: "values",
    values: {
      ...(hours === undefined ? {} : { intervalHours: hours }),
      ...(months === undefined ? {} : { intervalMonths: months }),
    },
  };
}

/** Documents (legs of a crossing, lines of an order) are typed as JSON. */
function readDocument(
  owner: NodeLabel | RelationshipType,
  property: string,
  text: string,
): TypedValue | undefined {
  const declaration = declared(owner)[property];
  if (declaration === undefined) return undefined;
  if (text.trim() === "") return { kind: "empty" };
  if (declaration.kind !== "document") {
    return {
      kind: "fault",
      rule: "This is written by the program itself",
      remedy: "Leave it as it is.",
    };
  }
  try {
    return { kind: "values", values: { [property]: JSON.parse(text) } };
  } catch {
    return {
      kind: "fault",
      rule: `This must be JSON: ${declaration.meaning}`,
      remedy: 'Write it like [{"to":"Mindelo","days":6,"longestDays":9}].',
    };
  }
}
