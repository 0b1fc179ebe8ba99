import {
  joinKey,
  keyPiece,
  mintNodeId,
  needNames,
  type Properties,
} from "../../../graph-schema/index.ts";
import type { KnownGraph } from "../../../importers/index.ts";
import type { ListReading, TypedModel } from "../../contract/what-if.contract.ts";
import { Problem } from "../../errors/problem.ts";
import type { AddedLink, AddedNode, AddedRows } from "../../scoring/snapshot/add-rows.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { askKnownGraph } from "../ask-known-graph.ts";
import { plural } from "../words.ts";
import { listReading } from "./list-reading.ts";
import { listAdds, readTypedLists, type TypedList } from "./typed-lists.ts";

interface Typed extends AddedRows {
  readonly notices: readonly string[];
  /** How each list was understood. */
  readonly lists: readonly ListReading[];
}

/**
 * The rows that models typed in on the spot, with their parts lists and offers, would add to the graph. The lists go
 * through the importer as any file does, but nothing is written: what they would change in records that exist already
 * is left as it is, and said so.
 * Errors: `columns-unmatched`, `file-empty` and the importer's others, naming the model; `key-taken` for a model that
 * is in the graph already.
 */
export function typedModels(models: readonly TypedModel[], store: GraphStore): Promise<Typed> {
  return askKnownGraph(store, (known) => typedOn(models, known));
}

async function typedOn(models: readonly TypedModel[], graph: KnownGraph): Promise<Typed> {
  const nodes: AddedNode[] = [];
  const links: AddedLink[] = [];
  const notices: string[] = [];
  const lists: ListReading[] = [];
  for (const typed of models) {
    const name = `${typed.maker} ${typed.designation}`;
    const makerKey = keyPiece(typed.maker);
    const maker = graph.nodes("Maker").get(makerKey)?.id ?? mintNodeId("Maker", makerKey);
    const key = joinKey(makerKey, keyPiece(typed.designation));
    const id = mintNodeId("Model", key);
    if (graph.nodes("Model").has(key) || nodes.some((node) => node.id === id)) {
      throw new Problem(
        "key-taken",
        `A model typed in on the spot must be new; ${name} is there already. Name it among the candidates instead, or give it another designation.`,
      );
    }
    nodes.push({ label: "Maker", id: maker, properties: { name: typed.maker } });
    nodes.push({ label: "Model", id, properties: modelProperties(typed) });
    links.push({ type: "MADE_BY", from: id, to: maker, properties: {} });
    for (const list of await readTypedLists(typed, id, graph)) {
      for (const change of listAdds(list, id)) {
        if (change.kind === "create-node") nodes.push(change);
        else links.push(change);
      }
      const reading = listReading(list, name);
      lists.push(reading);
      notices.push(...listNotices(list, reading));
    }
  }
  return { nodes, links, notices, lists };
}

function modelProperties(typed: TypedModel): Properties {
  const { designation, category, priceMinor, currency, massKg, can = {} } = typed;
  const stated = Object.entries({ designation, category, priceMinor, currency, massKg }).filter(
    ([, value]) => value !== undefined,
  );
  const able = needNames.flatMap((need) => {
    const figure = can[need];
    return figure === undefined ? [] : [[need, figure] as const];
  });
  return Object.fromEntries([...stated, ...able]) as Properties;
}

function listNotices(
  { proposal }: TypedList,
  { list, model, rows, faults }: ListReading,
): string[] {
  const changed = proposal.changeSet.changes.filter(
    (change) => change.kind !== "create-node" && change.kind !== "create-link",
  ).length;
  const [first] = faults;
  const example =
    first === undefined
      ? ""
      : ` Line ${first.line}: ${first.rule.replace(/\.$/, "")}; received "${first.value}". ${first.remedy}`;
  return [
    ...(rows.rejected > 0
      ? [
          `${rows.rejected} of ${rows.read} rows of the ${list} list of ${model} could not be read.${example}`,
        ]
      : []),
    ...(changed > 0
      ? [
          `The ${list} list of ${model} says other things of ${plural(changed, "record")} than the graph does; what the graph says stands.`,
        ]
      : []),
  ];
}
