import { keySeparator } from "../../graph-schema/index.ts";
import type { LinkTable } from "./link-table.ts";
import type { NodeTable } from "./node-table.ts";

/** What a node is called, owners before it: "Vessel / position". */
export function nodeInWords(table: NodeTable, node: number): string {
  const key = table.key(node);
  const name = table.names[node] ?? "";
  const owners = table.ownersOf(node).map((owner) => nodeInWords(owner.table, owner.node));
  const words = [...owners, name].filter((word) => word !== "").join(" / ");
  return words === "" ? key.replaceAll(keySeparator, " / ") : words;
}

/** Properties in words: "quantity 2, note in a bag". */
export const inWords = (properties: Readonly<Record<string, unknown>>): string =>
  Object.entries(properties)
    .map(([name, value]) => `${name} ${valueInWords(value)}`)
    .join(", ");

/** A value in words; a document as its entries: "to Mindelo, days 4; to Bridgetown, days 16". */
function valueInWords(value: unknown): string {
  if (Array.isArray(value)) {
    // Lines of an order name parts by their ids, which tell a person nothing.
    const isOfParts = value.some((entry) => Object.hasOwn(Object(entry), "part"));
    return isOfParts ? `(${value.length})` : value.map(valueInWords).join("; ");
  }
  if (typeof value === "object" && value !== null) return inWords({ ...value });
  return String(value);
}

/** The two ends of a link that a file speaks of. */
export interface Ends {
  readonly table: LinkTable;
  readonly fromNode: number;
  readonly toNode: number;
}

/** A link in words: "USES Maker / Model → Maker / Number". */
export const endsInWords = ({ table, fromNode, toNode }: Ends): string =>
  `${table.type} ${nodeInWords(table.fromTable, fromNode)} → ${nodeInWords(table.toTable, toNode)}`;
