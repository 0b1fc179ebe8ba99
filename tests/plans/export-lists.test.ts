import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { exportColumns } from "../../api/plans/export/export-columns.ts";
import { exportList, exportListNames } from "../../api/plans/export-lists.ts";
import { importFile } from "../../api/plans/import-file.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import {
  type NodeLabel,
  nodeLabelNames,
  type RelationshipType,
  relationshipTypeNames,
} from "../../graph-schema/index.ts";
import { matchColumns } from "../../importers/matching/match-columns.ts";
import { smallFleetCrossingCsv, smallFleetCsv } from "../http/small-fleet.ts";

const occasion = { who: "test", at: "2026-11-20T12:00:00.000Z" };
const emptyStore = (): Promise<GraphStore> => openStore({ db: ":memory:", env: {} });

async function take(store: GraphStore, name: string, text: string): Promise<void> {
  const answer = await importFile(
    store,
    { name, bytes: new TextEncoder().encode(text) },
    {},
    occasion,
  );
  expect(answer.rows.rejected, `${name}: ${JSON.stringify(answer.faults.slice(0, 3))}`).toBe(0);
}

/** All that the graph says, without what depends on the order of writing: ids, versions and the journal. */
async function contentOf(store: GraphStore) {
  const known = await store.knownGraph();
  const nameOf = new Map<string, string>();
  const nodes: Record<string, unknown> = {};
  for (const label of nodeLabelNames.filter((name): name is NodeLabel => name !== "Import")) {
    for (const { id, key, properties, extra } of known.nodes(label).values()) {
      nameOf.set(id, `${label} ${key}`);
      nodes[`${label} ${key}`] = { properties, extra };
    }
  }
  const links: Record<string, unknown> = {};
  for (const type of relationshipTypeNames as readonly RelationshipType[]) {
    for (const { from, to, properties, extra } of known.links(type).values()) {
      links[`${nameOf.get(from)} ${type} ${nameOf.get(to)}`] = { properties, extra };
    }
  }
  return { nodes, links };
}

/** What one store says and the other does not, by record. */
async function differences(before: GraphStore, after: GraphStore): Promise<readonly string[]> {
  const [a, b] = [await contentOf(before), await contentOf(after)];
  const told: string[] = [];
  for (const kind of ["nodes", "links"] as const) {
    for (const name of new Set([...Object.keys(a[kind]), ...Object.keys(b[kind])])) {
      const [one, other] = [a[kind][name], b[kind][name]].map((value) => sortedJson(value));
      if (one !== other) told.push(`${name}: ${one} -> ${other}`);
    }
  }
  return told;
}

const sortedJson = (value: unknown): string =>
  JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === "object" && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([x], [y]) => (x < y ? -1 : 1)))
      : inner,
  ) ?? "absent";

async function backAgain(store: GraphStore, lists: readonly string[]): Promise<GraphStore> {
  const back = await emptyStore();
  for (const list of lists) {
    const { fileName, text } = await exportList(store, list);
    if (text.trim().split("\n").length > 1) await take(back, fileName, text);
  }
  return back;
}

const separateLists = exportListNames.filter((name) => name !== "flat");

describe("exported lists", () => {
  it.each(Object.entries(exportColumns))(
    "%s: an import finds every column again",
    (list, columns) => {
      const header = columns.map((column) => column.header);
      const matching = matchColumns({ header, firstOfName: header.map((_, at) => at) });
      expect(matching.kind).toBe(list === "loose" ? "flat" : list);
      expect(matching.columns.map((column) => column.target)).toEqual(
        columns.map((column) => column.field),
      );
    },
  );

  it("give the same graph again in an empty store", async () => {
    const store = await emptyStore();
    await take(store, "fleet.csv", smallFleetCsv);
    await take(store, "crossing.csv", smallFleetCrossingCsv);
    const back = await backAgain(store, separateLists);
    expect(await differences(store, back)).toEqual([]);
  });

  it("give the same graph again from the flat list and the crossings", async () => {
    const store = await emptyStore();
    await take(store, "fleet.csv", smallFleetCsv);
    await take(store, "crossing.csv", smallFleetCrossingCsv);
    const back = await backAgain(store, ["flat", "crossings"]);
    expect(await differences(store, back)).toEqual([]);
  });

  it("give odd letters again: zeros, apostrophes, formulas, quotes, line ends, columns of nobody's", async () => {
    const store = await emptyStore();
    const odd = [
      "Vessel,Position,Maker,Model,Part maker,Part number,Description,Quantity per unit,Supplier,Price,Currency,Stock,Locker,Expires,Batch,Colour,Mark",
      `Tamarisk,Pump 1,Öst & Søn,P-1,,007,"Seal, ""wide""
second line",1,A-Z,1250,JPY,3,Bin 1 > Tray,2027-02-28,B1,=1+1,+x`,
      `Tamarisk,Pump 2,Öst & Søn,P-1,,007,"Seal, ""wide""
second line",1,B,"0,05",EUR,0,Bin 2,,B2,'=already,`,
      `Tamarisk,Pump 2,Öst & Søn,P-1,Ny,=SUM(A1),-dash,2,B,9.5,KWD,1,,,,,-y`,
      `,,,,Ny,@home,only a part,,,,,,,,,loose,`,
      `Tamarisk,Bare item,,X/9,,,,,,,,,,,,bare,`,
    ].join("\n");
    await take(store, "odd.csv", odd);
    const separate = await backAgain(store, separateLists);
    expect(await differences(store, separate)).toEqual([]);
    const flat = await backAgain(store, ["flat"]);
    expect(await differences(store, flat)).toEqual([]);
  });

  it("give back from the flat list functions nothing serves, empty lockers and stock of none, and say what is not in it", async () => {
    const store = await emptyStore();
    await take(store, "f.csv", "Vessel,Function,Tier,Need k\nTern,Steer,safety,1\n");
    await take(store, "l.csv", "Vessel,Locker\nTern,Forepeak > Bin 2\n");
    await take(
      store,
      "s.csv",
      "Vessel,Maker,Part number,On board,Locker,Batch\nTern,A,1,0,,\nTern,A,1,0,,B7\n",
    );
    await take(store, "p.csv", "Maker,Model,Part number,Qty\nA,M,1,2\n");
    await take(store, "i.csv", "Maker,Part number,Interchanges with,Other maker\nA,1,9,B\n");
    const { notice } = await exportList(store, "flat");
    expect(notice).toContain("1 × interchange");
    const back = await backAgain(store, ["flat", "interchange"]);
    expect(await differences(store, back)).toEqual([]);
    await take(store, "again.csv", (await exportList(store, "flat")).text);
    expect(await differences(store, back)).toEqual([]);
  });

  it("sets stock to none where a flat list says so", async () => {
    const store = await emptyStore();
    const list = (stock: number) =>
      `Vessel,Maker,Model,Part number,Qty,On board\nTern,A,M,1,2,${stock}\n`;
    await take(store, "a.csv", list(3));
    await take(store, "b.csv", list(0));
    const { nodes } = await contentOf(store);
    const lots = Object.entries(nodes).filter(([name]) => name.startsWith("StockLot"));
    expect(lots.map(([, lot]) => lot)).toEqual([{ properties: { quantity: 0 }, extra: {} }]);
  });

  it("keeps headers that begin with a sign", async () => {
    const store = await emptyStore();
    await take(store, "h.csv", "Maker,Model,Part number,Qty,@Mark,=Sum\nA,M,1,2,x,y\n");
    const back = await backAgain(store, separateLists);
    expect(await differences(store, back)).toEqual([]);
  });

  it("give the whole demo fleet again", async () => {
    const folder = new URL("../../importers/demo", import.meta.url).pathname;
    const store = await emptyStore();
    const answers = await openDemo(store, folder, occasion);
    expect(answers.length).toBe(readdirSync(folder).filter((name) => name.endsWith(".csv")).length);
    for (const { file, rows } of answers) {
      expect(rows.read, file.name).toBe(rows.accepted + rows.rejected + rows.skipped);
      expect(rows.accepted, file.name).toBeGreaterThan(0);
    }
    const back = await backAgain(store, separateLists);
    expect(await differences(store, back)).toEqual([]);
    expect(readFileSync(`${folder}/${answers[0]?.file.name}`).byteLength).toBe(
      answers[0]?.file.bytes,
    );
  });
});
