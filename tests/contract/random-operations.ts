import fc from "fast-check";
import {
  mintNodeId,
  type NodeId,
  type NodeLabel,
  type Properties,
  type RelationshipType,
  relationshipDeclaration,
} from "../../graph-schema/index.ts";
import type { ProposedChange } from "../../importers/change-set.ts";
import type { PlainGraph } from "./plain-graph.ts";

/** A change in the abstract: which, on what, whether on a stale version. Numbers pick among what is there. */
export interface Operation {
  readonly verb:
    | "create-node"
    | "update-node"
    | "rename-node"
    | "delete-node"
    | "link"
    | "relink"
    | "unlink";
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly stale: boolean;
}
/** One write of some operations, or the undoing of an earlier one. */
export type Step =
  | { readonly kind: "write"; readonly operations: readonly Operation[] }
  | { readonly kind: "undo"; readonly which: number };

const small = fc.nat({ max: 1000 });
const operation: fc.Arbitrary<Operation> = fc.record({
  verb: fc.constantFrom(
    "create-node",
    "create-node",
    "update-node",
    "rename-node",
    "delete-node",
    "link",
    "link",
    "link",
    "relink",
    "unlink",
  ),
  a: small,
  b: small,
  c: small,
  stale: fc.nat({ max: 9 }).map((tenth) => tenth === 0),
});
export const steps: fc.Arbitrary<readonly Step[]> = fc.array(
  fc.oneof(
    {
      weight: 4,
      arbitrary: fc.record({
        kind: fc.constant("write" as const),
        operations: fc.array(operation, { minLength: 1, maxLength: 5 }),
      }),
    },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant("undo" as const), which: small }) },
  ),
  { minLength: 8, maxLength: 25 },
);

const labels = ["Maker", "Part", "Vessel", "Locker", "StockLot"] as const satisfies NodeLabel[];
const types = [
  "MADE_BY",
  "IS_WITHIN",
  "STOWED_IN",
  "LOT_OF",
  "INTERCHANGES_WITH",
  "CONTAINS",
] as const satisfies RelationshipType[];
const names = ["a", "b", "c", "d"];

const pick = <T>(list: readonly T[], at: number): T | undefined => list[at % list.length];

function propertiesOf(label: (typeof labels)[number], name: string, amount: number): Properties {
  if (label === "Part") return { partNumber: name, massKg: amount };
  if (label === "StockLot") return { quantity: amount };
  if (label === "Locker") return { name, capacityLitres: amount };
  return { name };
}
const optionalName = { Part: "massKg", Locker: "capacityLitres" } as const;
const propertiesOfLink = (type: RelationshipType, amount: number): Properties =>
  type === "CONTAINS"
    ? { quantity: amount + 1 }
    : type === "INTERCHANGES_WITH"
      ? { source: `s${amount}` }
      : {};

/** The change an operation means on the graph as it is; undefined where there is nothing it could be about. */
export function concrete(graph: PlainGraph, operation: Operation): ProposedChange | undefined {
  const { verb, a, b, c, stale } = operation;
  const based = (version: number) => (stale ? version - 1 : version);
  if (verb === "create-node") {
    const label = pick(labels, a) ?? "Maker";
    const name = pick(names, b) ?? "a";
    const properties = propertiesOf(label, name, c % 4);
    return { kind: verb, label, id: mintNodeId(label, name), key: name, properties };
  }
  if (verb === "update-node" || verb === "rename-node" || verb === "delete-node") {
    const node = pick(graph.nodes, a);
    if (node === undefined) return undefined;
    const basedOn = based(node.version);
    if (verb === "delete-node") return { kind: verb, id: node.id, basedOn };
    const label = node.label as (typeof labels)[number];
    if (verb === "rename-node")
      return { kind: "update-node", id: node.id, basedOn, set: {}, key: pick(names, b) ?? "a" };
    const optional = label === "Part" || label === "Locker" ? optionalName[label] : undefined;
    if (optional !== undefined && b % 3 === 0)
      return { kind: verb, id: node.id, basedOn, set: {}, clear: [optional] };
    return {
      kind: verb,
      id: node.id,
      basedOn,
      set: propertiesOf(label, pick(names, b) ?? "a", c % 4),
      ...(c % 5 === 0 ? { extra: { [`column ${b % 2}`]: String(c % 3) } } : {}),
    };
  }
  if (verb === "link") {
    const type = pick(types, a) ?? "MADE_BY";
    const declared = relationshipDeclaration(type);
    const among = (allowed: readonly string[], at: number): NodeId | undefined =>
      pick(
        graph.nodes.filter(({ label }) => allowed.includes(label)),
        at,
      )?.id;
    const from = among(declared.from, b);
    const to = stale ? mintNodeId("Part", "ghost") : among(declared.to, c);
    if (from === undefined || to === undefined || (stale && !declared.to.includes("Part")))
      return undefined;
    return { kind: "create-link", type, from, to, properties: propertiesOfLink(type, c % 3) };
  }
  const link = pick(graph.links, a);
  if (link === undefined) return undefined;
  const { type, from, to } = link;
  const basedOn = based(link.version);
  if (verb === "unlink") return { kind: "delete-link", type, from, to, basedOn };
  return { kind: "update-link", type, from, to, basedOn, set: propertiesOfLink(type, c % 3) };
}
