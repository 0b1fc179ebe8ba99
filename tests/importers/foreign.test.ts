import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { ImportOptions } from "../../api/contract/import.contract.ts";
import { Problem } from "../../api/errors/problem.ts";
import { importFile } from "../../api/plans/import-file.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import type { KnownGraph } from "../../importers/change-set.ts";
import { importFile as proposeFile } from "../../importers/index.ts";
import { knownGraphOf } from "./known-graph-of.ts";

/**
 * Files written as strangers write them, each trade in its own way. What is expected of each was read off the file by
 * a person, not off the program.
 */
const folder = join(import.meta.dirname, "foreign");
const occasion = { who: "test", at: "2026-11-25T12:00:00.000Z" };

/** What a person expects of a file: kind, rows accepted, lines rejected with the reason's gist, lines passed over. */
interface Expected {
  readonly options?: ImportOptions;
  readonly kind: string;
  readonly accepted: number;
  readonly rejected: Readonly<Record<number, RegExp>>;
  readonly skipped: number;
  readonly notices: readonly string[];
}

const expectedOf: Readonly<Record<string, Expected>> = {
  "charterbasis-inventar.csv": {
    options: { fillDown: ["Yacht"] },
    kind: "stock",
    accepted: 4,
    rejected: { 12: /exponent/, 13: /between 0/, 14: /2027 has 28 days/ },
    skipped: 4, // the boat's name alone, "Motor", "Rigg", and the sum
    notices: [
      "column-orphaned",
      "rough-figure",
      "container-counted",
      "totals-passed",
      "heading-passed",
    ],
  },
  "tarif-accastilleur.csv": {
    options: { supplier: "Accastillage de la Rance Neuve", currency: "EUR" },
    kind: "offers",
    accepted: 5,
    rejected: { 8: /part number/ },
    skipped: 0,
    notices: ["range-most-taken", "rough-figure"],
  },
  "refit-worklist.csv": {
    kind: "flat",
    accepted: 2,
    rejected: { 3: /gallon|one way/, 4: /date|one way/, 5: /quarts/ },
    skipped: 0,
    notices: ["container-counted", "dollar-presumed", "range-most-taken"],
  },
  "voorraadlijst.csv": {
    kind: "stock",
    accepted: 2,
    rejected: { 4: /dozen/, 5: /quantity/ },
    skipped: 0,
    notices: [],
  },
  "inventario-velero.csv": {
    options: { vessel: "Garza" },
    kind: "flat",
    accepted: 3,
    rejected: { 4: /digits/ },
    skipped: 0,
    notices: ["row-repeated"],
  },
  "kit-manutenzione.csv": {
    options: { fillDown: ["Codice kit", "Nome kit"] },
    kind: "kits",
    accepted: 5,
    rejected: {},
    skipped: 0,
    notices: ["range-least-taken", "row-repeated"],
  },
  "pecas-do-rebocador.txt": {
    options: { vessel: "Alcatraz Pequeno" },
    kind: "flat",
    accepted: 3,
    rejected: {},
    skipped: 0,
    notices: [],
  },
  "erp-dump.txt": {
    options: { vessel: "North", decimal: "," },
    kind: "stock",
    accepted: 3,
    rejected: {},
    skipped: 4, // a ruled line, two sums, the end of the report
    notices: ["rule-passed", "totals-passed", "heading-passed"],
  },
  "old-mac-lockers.csv": {
    options: { vessel: "Corrimony" },
    kind: "stock",
    accepted: 3,
    rejected: {},
    skipped: 0,
    notices: ["container-counted"],
  },
  "forty-columns.csv": {
    kind: "parts",
    accepted: 2,
    rejected: {},
    skipped: 0,
    notices: [],
  },
  "formula-cells.csv": {
    kind: "flat",
    accepted: 1,
    rejected: { 2: /one figure/, 4: /digits/, 5: /error mark/ },
    skipped: 0,
    notices: ["text-formula", "formula-kept"],
  },
  "gear-register.csv": {
    options: { vessel: "Corrimony" },
    kind: "gear",
    accepted: 5,
    rejected: {},
    skipped: 1, // the row of units
    notices: ["range-most-taken", "year-alone", "column-merged", "units-passed"],
  },
  "cross-reference.csv": {
    kind: "interchange",
    accepted: 3,
    rejected: { 5: /two parts/, 6: /exponent/ },
    skipped: 0,
    notices: [],
  },
  "orders-2026.csv": {
    kind: "orders",
    accepted: 3,
    rejected: { 4: /currency/ },
    skipped: 0,
    notices: ["order-status-presumed"],
  },
};

const refused = ["nul-bytes.csv"];

const read = (name: string) => ({ name, bytes: readFileSync(join(folder, name)) });

/** The graph that a file leaves, taken in on its own. */
async function graphOf(name: string): Promise<KnownGraph> {
  const { dryRun: _, delimiter: __, ...settings } = expectedOf[name]?.options ?? {};
  const proposal = await proposeFile(read(name).bytes, knownGraphOf(), settings);
  return knownGraphOf(proposal.changeSet);
}

const property = (graph: KnownGraph, label: "Part" | "Locker" | "Vessel" | "Order", name: string) =>
  [...graph.nodes(label).values()].map(({ properties }) => properties[name]).sort();

describe("files nobody here wrote", () => {
  it("are all looked at", () => {
    expect(readdirSync(folder).sort()).toEqual([...Object.keys(expectedOf), ...refused].sort());
  });

  it.each(Object.entries(expectedOf))("%s is read as a person would", async (name, expected) => {
    const store = SqliteStore.open(":memory:");
    const settings = expected.options ?? {};
    const preview = await importFile(store, read(name), { ...settings, dryRun: true }, occasion);
    expect(preview.listKind).toBe(expected.kind);
    const rejected = new Map<number, string>();
    for (const { line, rule, value, remedy } of preview.faults) {
      expect(rule.length, `line ${line}`).toBeGreaterThan(15);
      expect(value.length, `line ${line}`).toBeGreaterThan(0);
      expect(remedy.length, `line ${line}`).toBeGreaterThan(10);
      rejected.set(line, `${rejected.get(line) ?? ""} ${rule}`);
    }
    expect([...rejected.keys()]).toEqual(Object.keys(expected.rejected).map(Number));
    for (const [line, gist] of Object.entries(expected.rejected)) {
      expect(rejected.get(Number(line))).toMatch(gist);
    }
    const { accepted, skipped } = expected;
    expect(preview.rows).toEqual({
      read: accepted + rejected.size + skipped,
      accepted,
      rejected: rejected.size,
      skipped,
    });
    expect(preview.notices.map(({ code }) => code).sort()).toEqual([...expected.notices].sort());

    // What is committed is what was shown, and once is enough.
    const done = await importFile(store, read(name), settings, occasion);
    expect(done.changesTotal).toBe(preview.changesTotal);
    expect(done.records).toEqual(preview.records);
    const again = await importFile(store, read(name), settings, occasion);
    expect(again.changesTotal).toBe(0);
    await store.close();
  });

  it("are refused where they are no text, with the line", async () => {
    const store = SqliteStore.open(":memory:");
    for (const name of refused) {
      const error = await importFile(store, read(name), {}, occasion).catch((e: unknown) => e);
      expect(error).toBeInstanceOf(Problem);
      expect(String(error)).toMatch(/NUL bytes, the first on line 2/);
    }
    await store.close();
  });
});

describe("what was understood of them", () => {
  it("keeps leading zeros, and takes prices with thin spaces and a pack in words", async () => {
    const graph = await graphOf("tarif-accastilleur.csv");
    expect(property(graph, "Part", "partNumber")[0]).toBe("0012450");
    const offers = [...graph.links("OFFERS").values()].map(({ properties }) => properties);
    expect(offers).toContainEqual({
      priceMinor: 123_450,
      currency: "EUR",
      packSize: 1,
      leadTimeDays: 21,
    });
    expect(offers).toContainEqual({
      priceMinor: 790,
      currency: "EUR",
      packSize: 2,
      leadTimeDays: 2,
    });
    expect(graph.links("SUPERSEDED_BY").size).toBe(1);
  });

  it("takes no heading for a part, and no word alone for a boat", async () => {
    const graph = await graphOf("charterbasis-inventar.csv");
    expect(property(graph, "Vessel", "name")).toEqual(["Seggelhorn"]);
    expect(property(graph, "Part", "partNumber")).toEqual([
      "00417",
      "0042-7",
      "875/10",
      "DIN 94-3,2",
    ]);
  });

  it("sees through invisible marks and the quotes of a word processor", async () => {
    const graph = await graphOf("old-mac-lockers.csv");
    expect(property(graph, "Locker", "name")).toEqual(["Forepeak", "Sail locker"]);
    expect(property(graph, "Part", "partNumber")).toContain("WR-1002");
    expect(property(graph, "Part", "description")).toContain("Sail tape");
  });

  it("reads pounds and ounces, exactly by definition", async () => {
    const graph = await graphOf("refit-worklist.csv");
    // NIST SP 811, appendix B: an ounce is 0.45359237/16 kg.
    expect(property(graph, "Part", "massKg")).toEqual([0.085048569375, 0.1133980925]);
  });

  it("keeps forty columns it does not know", async () => {
    const graph = await graphOf("forty-columns.csv");
    const extras = [...graph.links("USES").values()].map(({ extra }) => Object.keys(extra).length);
    expect(extras.sort()).toEqual([0, 40]);
  });

  it("lets each line of an order have its day", async () => {
    const graph = await graphOf("orders-2026.csv");
    expect(property(graph, "Order", "expected")[0]).toBe("2026-12-15");
  });
});
