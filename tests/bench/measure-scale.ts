import { DatabaseSync } from "node:sqlite";
import neo4j from "neo4j-driver";
import { gearPicture } from "../../api/plans/gear-picture.ts";
import { partClasses } from "../../api/scoring/classes/part-classes.ts";
import { fittedScope } from "../../api/scoring/commonality/fitted-scope.ts";
import { commonalityIndices } from "../../api/scoring/commonality/indices.ts";
import { distinctKits } from "../../api/scoring/commonality/kits.ts";
import { mostCovered } from "../../api/scoring/coverage/most-covered.ts";
import { suppliedGear } from "../../api/scoring/coverage/supplied-gear.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { encodeLink, encodeNode } from "../../api/store/neo4j/codec.ts";
import { Neo4jStore } from "../../api/store/neo4j/neo4j-store.ts";
import type { Neo4jSettings } from "../../api/store/neo4j/settings.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import {
  labelOf,
  neo4jConstraints,
  nodeDeclaration,
  quoteName,
  relationshipDeclaration,
  sqliteTables,
} from "../../graph-schema/index.ts";
import type { ProposedChange } from "../../importers/change-set.ts";
import { largeFleet, million, scaled } from "./large-fleet.ts";

/**
 * Run as a process of its own for each step, so that a peak of memory is that of the step and nothing else:
 * `node tests/bench/measure-scale.ts STORE STEP SCALE PLACE`. STORE is sqlite or neo4j; STEP is write (the import and
 * the bare inserts it is compared with) or ask (snapshots, commonality, suppliers). Prints one JSON document.
 */
const [store, step, scale, place] = process.argv.slice(2);
if (place === undefined) throw new Error("Needs store, step, scale and place");
const size = scaled(million, Number(scale));
const occasion = { who: "bench", at: "2026-01-01T00:00:00Z" };
const rowsAtOnce = 2000;

async function timed<T>(work: () => Promise<T>): Promise<readonly [T, number]> {
  const start = performance.now();
  const result = await work();
  return [result, performance.now() - start];
}

type Creation = ProposedChange & { kind: "create-node" | "create-link" };

/** The same rows by prepared statements alone: no check, no journal, no search index; the same tables and indexes. */
function bareSqlite(path: string, changes: readonly Creation[]): void {
  const db = new DatabaseSync(path);
  db.exec("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA cache_size = -65536");
  db.exec(
    "CREATE TABLE node (n INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE, label TEXT NOT NULL) STRICT",
  );
  for (const table of sqliteTables()) {
    db.exec(table.createTable);
    for (const index of table.createIndexes) db.exec(index);
  }
  const prepared = new Map<string, ReturnType<DatabaseSync["prepare"]>>();
  const insert = (
    table: string,
    columns: readonly string[],
    values: readonly (string | number | null)[],
  ) => {
    let statement = prepared.get(table);
    if (statement === undefined) {
      const marks = columns.map(() => "?").join(", ");
      statement = db.prepare(
        `INSERT INTO ${quoteName(table)} (${columns.map(quoteName).join(", ")}) VALUES (${marks})`,
      );
      prepared.set(table, statement);
    }
    statement.run(...values);
  };
  const numbers = new Map<string, number>();
  const plain = (value: unknown) =>
    value === undefined
      ? null
      : typeof value === "boolean"
        ? Number(value)
        : (value as string | number);
  db.exec("BEGIN");
  let n = 0;
  for (const change of changes) {
    n++;
    if (change.kind === "create-node") {
      const names = Object.keys(nodeDeclaration(change.label).properties);
      insert("node", ["n", "id", "label"], [n, change.id, change.label]);
      insert(
        change.label,
        ["n", "key", "version", ...names],
        [n, change.key, 1, ...names.map((name) => plain(change.properties[name]))],
      );
      numbers.set(change.id, n);
    } else {
      const names = Object.keys(relationshipDeclaration(change.type).properties);
      insert(
        change.type,
        ["n", "fromNode", "toNode", "version", ...names],
        [
          n,
          numbers.get(change.from) ?? 0,
          numbers.get(change.to) ?? 0,
          1,
          ...names.map((name) => plain(change.properties[name])),
        ],
      );
    }
  }
  db.exec("COMMIT");
  db.close();
}

/** The same rows by batched UNWIND alone, a transaction a batch: no check, no journal; ids unique, as any import needs. */
async function bareNeo4j(settings: Neo4jSettings, changes: readonly Creation[]): Promise<void> {
  const driver = neo4j.driver(settings.uri, neo4j.auth.basic(settings.user, settings.password));
  const session = driver.session();
  for (const statement of neo4jConstraints())
    if (statement.includes("`id`")) await session.run(statement);
  await session.run("CALL db.awaitIndexes(300)");
  const groups = new Map<string, Creation[]>();
  for (const change of changes) {
    const name =
      change.kind === "create-node"
        ? change.label
        : `${change.type} ${labelOf(change.from)} ${labelOf(change.to)}`;
    const group = groups.get(name);
    if (group === undefined) groups.set(name, [change]);
    else group.push(change);
  }
  for (const [name, group] of groups) {
    const [type, from, to] = name.split(" ");
    const query =
      from === undefined
        ? `UNWIND $rows AS row CREATE (n:\`${type}\`) SET n = row`
        : `UNWIND $rows AS row MATCH (a:\`${from}\` {id: row[0]}) MATCH (b:\`${to}\` {id: row[1]}) CREATE (a)-[r:\`${type}\`]->(b) SET r = row[2]`;
    for (let at = 0; at < group.length; at += rowsAtOnce) {
      const rows = group.slice(at, at + rowsAtOnce).map((change) => {
        const { properties } = change;
        const more = { version: 1, properties, extra: {} };
        if (change.kind === "create-node") {
          const { id, label, key } = change;
          const {
            searchWords: _w,
            searchNumbers: _n,
            sequence: _s,
            ...values
          } = encodeNode({
            n: 0,
            record: { id, label, key, ...more },
          });
          return values;
        }
        const { type: of, from: a, to: b } = change;
        const {
          searchCode: _c,
          sequence: _s,
          ...values
        } = encodeLink({
          n: 0,
          record: { type: of, from: a, to: b, ...more },
        });
        return [a, b, values];
      });
      await session.executeWrite((transaction) => transaction.run(query, { rows }));
    }
  }
  await session.close();
  await driver.close();
}

function settingsFrom(text: string): Neo4jSettings {
  return JSON.parse(text) as Neo4jSettings;
}

const openStore = (): Promise<GraphStore> | GraphStore =>
  store === "sqlite" ? SqliteStore.open(place) : Neo4jStore.open(settingsFrom(place));

async function write() {
  const changes = largeFleet(size) as readonly Creation[];
  const graph = await openStore();
  const [, importMs] = await timed(() =>
    graph.apply({ changes }, { ...occasion, importOf: { fileName: "fleet" } }),
  );
  await graph.close();
  return { records: changes.length, importMs };
}

async function bare() {
  const changes = largeFleet(size) as readonly Creation[];
  if (store === "sqlite") {
    const [, bareMs] = await timed(async () => bareSqlite(place ?? "", changes));
    return { bareMs };
  }
  const [, bareMs] = await timed(() => bareNeo4j(settingsFrom(place ?? ""), changes));
  return { bareMs };
}

/** Fleet-wide commonality and the best three suppliers, from the picture the plans ask for. */
async function askFleet(graph: GraphStore) {
  const picture = await gearPicture(graph, undefined);
  const classes = partClasses(picture);
  const scope = fittedScope(picture, classes, {});
  const indices = commonalityIndices(scope.all);
  const kits = distinctKits(scope.sparable);
  const gear = suppliedGear(picture, classes, scope);
  const weights = Array.from({ length: gear.rowCount }, () => 1);
  const best = mostCovered(gear, weights, 3);
  return { distinct: indices.distinctParts, kits: kits.kitCount, covered: best.reached };
}

async function ask() {
  const graph = await openStore();
  const vessels = await graph.list("Vessel", 0, 4);
  const vesselMs: number[] = [];
  // The first opens the pages of the file and lets the server plan; a person asks more than once.
  for (const { id } of vessels) {
    const [, ms] = await timed(() => graph.snapshot(id));
    vesselMs.push(ms);
  }
  const [answer, fleetMs] = await timed(() => askFleet(graph));
  await graph.close();
  return {
    ...answer,
    firstVesselMs: vesselMs[0],
    vesselMs: vesselMs.slice(1).sort((a, b) => a - b)[1],
    fleetMs,
    peakBytes: process.resourceUsage().maxRSS * 1024,
  };
}

const steps: Readonly<Record<string, () => Promise<unknown>>> = { write, bare, ask };
console.log(JSON.stringify(await steps[step ?? ""]?.()));
