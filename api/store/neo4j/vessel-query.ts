import type { NodeLabel, RelationshipType } from "../../../graph-schema/index.ts";
import { relationshipDeclaration } from "../../../graph-schema/index.ts";
import { ticked } from "./read-records.ts";

/** What a picture wants of nodes `n` of a label, or of relationships `r` from `a` to `b`: the columns of a row. */
export interface Wanted<N> {
  readonly name: N;
  readonly row: string;
}
export interface WantedTables {
  readonly nodes: readonly Wanted<NodeLabel>[];
  readonly links: readonly Wanted<RelationshipType>[];
}

/**
 * What belongs to one vessel, collected on the server step by step, as `sqlite/choose-vessel.ts` does it: each entry
 * names a list, says from which earlier lists it begins, and which nodes `n` are in it.
 */
const steps: readonly (readonly [name: string, from: readonly string[], nodes: string])[] = [
  ["items", ["v"], "MATCH (v)<-[:FITTED_ON]-(n)"],
  ["functions", ["v"], "MATCH (v)<-[:REQUIRED_ON]-(n)"],
  ["crossings", ["v"], "MATCH (v)<-[:SAILED_BY]-(n)"],
  ["lockers", ["v"], "MATCH (v)<-[:IS_WITHIN*]-(n:Locker)"],
  ["lots", ["v", "lockers"], "UNWIND [v] + lockers AS at MATCH (at)<-[:STOWED_IN]-(n)"],
  ["models", ["items"], "UNWIND items AS at MATCH (at)-[:IS_MODEL]->(n)"],
  ["services", ["models"], "UNWIND models AS at MATCH (at)<-[:SERVICE_OF]-(n)"],
  ["modelMakers", ["models"], "UNWIND models AS at MATCH (at)-[:MADE_BY]->(n)"],
  [
    "parts",
    ["models", "services", "lots"],
    `CALL (models, services, lots) {
       UNWIND models AS at MATCH (at)-[:USES]->(n) RETURN n
       UNION UNWIND services AS at MATCH (at)-[:CONSUMES]->(n) RETURN n
       UNION UNWIND lots AS at MATCH (at)-[:LOT_OF]->(n) RETURN n
     }`,
  ],
];
/** In which list the nodes of a label are; parts, and what is found at them, are read apart. */
const listOf: Readonly<Record<string, string>> = {
  Vessel: "[v]",
  FittedItem: "items",
  RequiredFunction: "functions",
  Crossing: "crossings",
  Locker: "lockers",
  StockLot: "lots",
  Model: "models",
  ServiceTask: "services",
  Maker: "modelMakers",
};
/** What is found at parts, with the labels of the other ends that are then in the picture too. */
const foundAtParts: readonly NodeLabel[] = ["Maker", "Supplier"];

/** Relationships that are walked from their target: a supplier offers far more than one vessel's parts. */
const fromTarget: ReadonlySet<RelationshipType> = new Set(["OFFERS"]);
const nearLabels = (type: RelationshipType): readonly string[] => {
  const { from, to } = relationshipDeclaration(type);
  return fromTarget.has(type) ? to : from;
};

/** Such relationships lead from a wanted part to others; their rows carry both ids. */
export function isFromPartToPart(type: RelationshipType): boolean {
  const { from, to } = relationshipDeclaration(type);
  return [...from, ...to].every((label) => label === "Part");
}

/**
 * A statement that gives rows of several tables, some at a time: each answer is the number of a table, and rows of it.
 * (The driver finds its way through one very long answer byte by byte.)
 */
export interface TablesQuery {
  readonly text: string;
  readonly tables: readonly ({ readonly label: NodeLabel } | { readonly type: RelationshipType })[];
}
export const rowsAtOnce = 50;

interface Piece {
  readonly text: string;
  readonly table: TablesQuery["tables"][number];
}
const piece = (
  table: Piece["table"],
  from: readonly string[],
  rows: string,
  row: string,
  at: string,
): Piece => ({
  table,
  text: `CALL (${from.join(", ")}) { ${rows} RETURN collect([${row}]) AS ${at} }`,
});

function joined(begin: string, pieces: readonly Piece[]): TablesQuery {
  const names = pieces.map(({ text }) => /AS (\w+) }$/.exec(text)?.[1] ?? "");
  return {
    text: `${begin}
${pieces.map(({ text }) => text).join("\n")}
UNWIND [${names.map((name, at) => `[${at}.0, ${name}]`).join(", ")}] AS table
WITH table[0] AS number, table[1] AS rows WHERE size(rows) > 0
UNWIND range(0, size(rows) - 1, ${rowsAtOnce}) AS first
RETURN [number, rows[first .. first + ${rowsAtOnce}]]`,
    tables: pieces.map(({ table }) => table),
  };
}

/** Reads the parts of the list `parts`, and all that is found at them in one look at each part's relationships. */
function atParts({ nodes, links }: WantedTables): {
  readonly begin: string;
  readonly pieces: Piece[];
} {
  const types = links.filter(({ name }) => nearLabels(name).includes("Part"));
  const among = types.map(({ name }) => ticked(name)).join("|");
  const found = [
    ...types.map(
      ({ name }) => `collect(DISTINCT CASE type(r) WHEN '${name}' THEN r END) AS is${name}`,
    ),
    ...foundAtParts.map(
      (label) => `collect(DISTINCT CASE WHEN n:${label} THEN n END) AS is${label}`,
    ),
  ];
  const begin = `CALL (parts) { UNWIND parts AS at MATCH (at)-[r:${among}]-(n) RETURN ${found.join(", ")} }`;
  const pieces = [
    ...nodes
      .filter(({ name }) => name === "Part" || foundAtParts.includes(name))
      .map(({ name, row }) => {
        const list = name === "Part" ? "parts" : `is${name}`;
        return piece({ label: name }, [list], `UNWIND ${list} AS n`, row, `found${name}`);
      }),
    ...types.map(({ name, row }) =>
      piece(
        { type: name },
        [`is${name}`],
        `UNWIND is${name} AS r WITH r, startNode(r) AS a, endNode(r) AS b`,
        row,
        `found${name}`,
      ),
    ),
  ];
  return { begin, pieces };
}

/** All of a vessel's picture that needs no step from part to part. Parameter: vessel. No row where there is no such vessel. */
export function vesselQuery(wanted: WantedTables): TablesQuery {
  const lists = steps.map(
    ([name, from, nodes]) =>
      `CALL (${from.join(", ")}) { ${nodes} RETURN collect(DISTINCT n) AS ${name} }`,
  );
  const own: Piece[] = [];
  for (const { name, row } of wanted.nodes) {
    const list = listOf[name];
    if (list === undefined) continue;
    const from = list.match(/\w+/g) ?? [];
    own.push(piece({ label: name }, from, `UNWIND ${list} AS n`, row, `own${name}`));
  }
  for (const { name, row } of wanted.links) {
    const near = nearLabels(name).flatMap((label) => listOf[label] ?? []);
    if (near.length === 0) continue;
    const from = near.join(" ").match(/\w+/g) ?? [];
    const rows = `UNWIND ${near.join(" + ")} AS a MATCH (a)-[r:${ticked(name)}]->(b)`;
    own.push(piece({ type: name }, from, rows, row, `own${name}`));
  }
  const { begin, pieces } = atParts(wanted);
  const all = [...own, ...pieces];
  return joined(["MATCH (v:Vessel {id: $vessel})", ...lists, begin].join("\n"), all);
}

/** Some parts and all that is found at them. Parameter: ids. */
export function partsQuery(wanted: WantedTables): TablesQuery {
  const { begin, pieces } = atParts(wanted);
  const parts = "UNWIND $ids AS id MATCH (p:Part {id: id}) WITH collect(p) AS parts";
  return joined([parts, begin].join("\n"), pieces);
}
