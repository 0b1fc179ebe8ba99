import {
  joinKey,
  keyPiece,
  mintNodeId,
  type NodeId,
  needNames,
  type Properties,
} from "../../../graph-schema/index.ts";
import {
  importFile,
  isDeclaredName,
  type KnownGraph,
  matchColumns,
  type Proposal,
  readTable,
  type Table,
  writeCsv,
} from "../../../importers/index.ts";
import type { TypedModel } from "../../contract/what-if.contract.ts";
import { Problem } from "../../errors/problem.ts";
import type { AddedLink, AddedNode, AddedRows } from "../../scoring/snapshot/add-rows.ts";

interface Typed extends AddedRows {
  readonly notices: readonly string[];
}

/**
 * The rows that models typed in on the spot, with their parts lists and offers, would add to the graph. The lists go
 * through the importer as any file does, but nothing is written: what they would change in records that exist already
 * is left as it is, and said so.
 * Errors: `columns-unmatched`, `file-empty` and the importer's others, naming the model; `key-taken` for a model that
 * is in the graph already.
 */
export async function typedModels(
  models: readonly TypedModel[],
  graph: KnownGraph,
): Promise<Typed> {
  const nodes: AddedNode[] = [];
  const links: AddedLink[] = [];
  const notices: string[] = [];
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
    const lists = [
      ["parts", typed.partsCsv],
      ["offers", typed.offersCsv],
    ] as const;
    for (const [kind, csv] of lists) {
      if (csv === undefined) continue;
      const list = await readList(typed, kind, csv, graph, name);
      take(list.proposal, { nodes, links }, id);
      notices.push(...listNotices(list, kind, name));
    }
  }
  return { nodes, links, notices };
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

interface ReadList {
  readonly proposal: Proposal;
  /** Lines of the person's file above the first the importer saw. */
  readonly linesAbove: number;
}

/** Reads a list as an import would; maker and model are put in front of a parts list that does not name its model. */
async function readList(
  typed: TypedModel,
  kind: "parts" | "offers",
  csv: string,
  graph: KnownGraph,
  name: string,
): Promise<ReadList> {
  const settings = typed.currency === undefined ? {} : { currency: typed.currency };
  const read = (text: string): Promise<Proposal> =>
    importFile(new TextEncoder().encode(text), graph, { listKind: kind, ...settings });
  try {
    if (kind === "offers") return { proposal: await read(csv), linesAbove: 0 };
    const { table, rows } = readTable(csv, { isKnownName: isDeclaredName });
    const naming = matchesModel(table) ? [] : [typed.maker, typed.designation];
    const header = naming.length === 0 ? table.header : ["Maker", "Model", ...table.header];
    const text = writeCsv(
      header,
      rows.map((row) => [...naming, ...row]),
    );
    return { proposal: await read(text), linesAbove: table.headerLine - 1 };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    throw new Problem(error.code, `The ${kind} list of ${name}: ${error.message}`, {
      places: error.places,
      facts: error.facts,
      cause: error,
    });
  }
}

/** Whether a parts list names its models itself. */
function matchesModel(table: Table): boolean {
  try {
    const { columns } = matchColumns(table, { listKind: "parts" });
    return columns.some(({ target }) => target === "Model.designation");
  } catch (error) {
    if (error instanceof Problem && error.code === "columns-unmatched") return false;
    throw error;
  }
}

/** Takes over what a list adds: every part and offer, and of the lines of parts lists those of the typed model. */
function take(
  { changeSet }: Proposal,
  into: { nodes: AddedNode[]; links: AddedLink[] },
  model: NodeId,
): void {
  for (const change of changeSet.changes) {
    if (change.kind === "create-node" && change.label !== "Model") into.nodes.push(change);
    if (change.kind === "create-link" && (change.type !== "USES" || change.from === model))
      into.links.push(change);
  }
}

function listNotices({ proposal, linesAbove }: ReadList, kind: string, name: string): string[] {
  const { rows, changeSet, faults } = proposal;
  const changed = changeSet.changes.filter(
    (change) => change.kind !== "create-node" && change.kind !== "create-link",
  ).length;
  const [first] = faults;
  const example =
    first === undefined
      ? ""
      : ` Line ${first.line + linesAbove}: ${first.rule}; received "${first.value}". ${first.remedy}`;
  const unread = `${rows.rejected} of ${rows.read} rows of the ${kind} list of ${name} could not be read.${example}`;
  return [
    ...(rows.rejected > 0 ? [unread] : []),
    ...(changed > 0
      ? [
          `The ${kind} list of ${name} says other things of ${changed} records than the graph does; those stay as they are.`,
        ]
      : []),
  ];
}
