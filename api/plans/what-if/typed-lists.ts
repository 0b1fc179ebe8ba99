import type { NodeId, NodeLabel } from "../../../graph-schema/index.ts";
import {
  importFile,
  isDeclaredName,
  type KnownGraph,
  matchColumns,
  openTable,
  type Proposal,
  readTable,
  type Table,
  writeCsv,
} from "../../../importers/index.ts";
import type { TypedModel } from "../../contract/what-if.contract.ts";
import { Problem } from "../../errors/problem.ts";

/** A list that came with a model typed in on the spot, as the importer understood it. */
export interface TypedList {
  readonly kind: "parts" | "offers";
  readonly proposal: Proposal;
  /** The line of the person's own list that a line of the text read came from. */
  readonly lineInList: (line: number) => number;
  /** Columns put in front that name the maker and the model; the person's own come after them. */
  readonly columnsInFront: number;
}

/** What kind of record a list may add to what is imagined; the model itself is as it was typed. */
const taken: ReadonlySet<NodeLabel> = new Set<NodeLabel>(["Maker", "Part", "Supplier"]);

type Created = Extract<
  Proposal["changeSet"]["changes"][number],
  { readonly kind: "create-node" | "create-link" }
>;

/** What a list adds: parts, suppliers and offers, and of the lines of parts lists those of the typed model. */
export const listAdds = ({ proposal }: TypedList, model: NodeId): readonly Created[] =>
  proposal.changeSet.changes.filter((change): change is Created =>
    change.kind === "create-node"
      ? taken.has(change.label)
      : change.kind === "create-link" &&
        (change.type === "USES"
          ? change.from === model
          : ["MADE_BY", "OFFERS", "SUPERSEDED_BY"].includes(change.type)),
  );

/**
 * The lists of a model typed in on the spot, each read as an import would read it; nothing is written. Offers find the
 * parts of the parts list beside them. A parts list that also says who sells each part for how much is read for both.
 * Errors: `columns-unmatched`, `file-empty` and the importer's others, naming the list and the model.
 */
export async function readTypedLists(
  typed: TypedModel,
  model: NodeId,
  graph: KnownGraph,
): Promise<readonly TypedList[]> {
  const { partsCsv, offersCsv } = typed;
  const parts = partsCsv === undefined ? undefined : await readParts(typed, partsCsv, graph);
  if (offersCsv === undefined) return parts === undefined ? [] : [parts];
  const known = parts === undefined ? graph : graphWith(graph, listAdds(parts, model));
  const proposal = await named(typed, "offers", () => read(typed, offersCsv, "offers", known));
  const offers: TypedList = {
    kind: "offers",
    proposal,
    lineInList: (line) => line,
    columnsInFront: 0,
  };
  return parts === undefined ? [offers] : [parts, offers];
}

const read = (
  { currency }: TypedModel,
  text: string,
  listKind: string,
  graph: KnownGraph,
): Promise<Proposal> =>
  importFile(new TextEncoder().encode(text), graph, {
    listKind,
    ...(currency === undefined ? {} : { currency }),
  });

/** Reads a parts list; maker and model are put in front of one that does not name its model. */
const readParts = (typed: TypedModel, csv: string, graph: KnownGraph): Promise<TypedList> =>
  named(typed, "parts", async () => {
    const { table, rows } = readTable(csv, { isKnownName: isDeclaredName });
    const naming = namesModel(table) ? [] : [typed.maker, typed.designation];
    const header = naming.length === 0 ? table.header : ["Maker", "Model", ...table.header];
    const text = writeCsv(
      header,
      rows.map((row) => [...naming, ...row]),
    );
    const proposal = await read(typed, text, saysWhoSells(text) ? "flat" : "parts", graph);
    const lines = new Map(rows.map((_, row) => [proposal.table.lineOf(row), table.lineOf(row)]));
    return {
      kind: "parts",
      proposal,
      lineInList: (line) => lines.get(line) ?? line + table.headerLine - 1,
      columnsInFront: naming.length,
    };
  });

/** Whether a parts list names its models itself. */
const namesModel = (table: Table): boolean => columnsOf(table, "parts").has("Model.designation");

const saysWhoSells = (text: string): boolean => {
  const columns = columnsOf(openTable(text, { isKnownName: isDeclaredName }), "flat");
  return columns.has("Supplier.name") && columns.has("OFFERS.priceMinor");
};

function columnsOf(table: Table, listKind: string): ReadonlySet<string> {
  try {
    const { columns } = matchColumns(table, { listKind });
    return new Set(columns.flatMap(({ target }) => (target === undefined ? [] : [target])));
  } catch (error) {
    if (error instanceof Problem && error.code === "columns-unmatched") return new Set();
    throw error;
  }
}

/** Has a problem of the importer say whose list it is. */
async function named<T>(
  { maker, designation }: TypedModel,
  kind: TypedList["kind"],
  work: () => Promise<T>,
): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    throw new Problem(error.code, `The ${kind} list of ${maker} ${designation}: ${error.message}`, {
      places: error.places,
      facts: error.facts,
      cause: error,
    });
  }
}

/** The graph as it would be with some records more. */
function graphWith(graph: KnownGraph, added: readonly Created[]): KnownGraph {
  return {
    links: (type) => graph.links(type),
    nodes: (label) => {
      const known = graph.nodes(label);
      const more = added.filter((one) => one.kind === "create-node" && one.label === label);
      // Copied only where it differs: a graph behind a wire fetches all of what is walked.
      if (more.length === 0) return known;
      const nodes = new Map(known);
      for (const change of more)
        if (change.kind === "create-node" && !nodes.has(change.key))
          nodes.set(change.key, { ...change, extra: {}, version: 1 });
      return nodes;
    },
  };
}
