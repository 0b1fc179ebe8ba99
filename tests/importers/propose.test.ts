import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../../api/errors/problem.ts";
import { nodeLabelNames, relationshipTypeNames } from "../../graph-schema/index.ts";
import type { KnownGraph } from "../../importers/change-set.ts";
import {
  type ImportFileOptions,
  importFile,
  type Proposal,
  rejectedCsv,
} from "../../importers/index.ts";
import { contentOf, knownGraphOf } from "./known-graph-of.ts";

const nothing = knownGraphOf();
const take = (text: string, options: ImportFileOptions = {}, graph: KnownGraph = nothing) =>
  importFile(new TextEncoder().encode(text), graph, options);

const content = (graph: KnownGraph): unknown =>
  contentOf(graph, nodeLabelNames, relationshipTypeNames);
const mapped = ({ matching }: Proposal): Record<string, string | undefined> =>
  Object.fromEntries(matching.columns.map(({ header, target }) => [header, target]));
const names = (graph: KnownGraph, label: Parameters<KnownGraph["nodes"]>[0], property: string) =>
  [...graph.nodes(label).values()].map(({ properties }) => properties[property]).sort();
const codes = ({ faults }: Proposal) => faults.map(({ code }) => code);
const add = ({ rows }: Proposal) => {
  expect(rows.read).toBe(rows.accepted + rows.rejected + rows.skipped);
  return rows;
};

const flat = [
  "Vessel,Position,Manufacturer,Model,Category,Part number,Description,Weight (g),Qty,Supplier,Price,Locker,On board,Expires,Colour",
  "Tern,Primary winch port,Works North,W-40,winch,00123,pawl spring,4,8,Quay Stores,1.50 EUR,Bin 3,6,,red",
  "Tern,Primary winch port,Works North,W-40,winch,00124-b,bearing,30,4,Quay Stores,12.00 EUR,Bin 3,2,,",
  "Tern,Primary winch stbd,Works North,W-40,winch,00123,pawl spring,4,8,Quay Stores,1.50 EUR,Bin 3,6,,blue",
  "Tern,Bilge pump fwd,Works South,P 7,bilge pump,77/A,impeller,120,1,Mole Supply,23.40 EUR,Bin 4,1,Mar 2027,",
].join("\n");

describe("a flat list", () => {
  it("becomes gear, parts, offers and stock", async () => {
    const proposal = await take(flat);
    expect(proposal.matching.kind).toBe("flat");
    expect(add(proposal)).toEqual({ read: 4, accepted: 4, rejected: 0, skipped: 0 });
    expect(proposal.changeSet.changes).toHaveLength(proposal.changeCount);
    const graph = knownGraphOf(proposal.changeSet);
    expect(names(graph, "Part", "partNumber")).toEqual(["00123", "00124-b", "77/A"]);
    expect(names(graph, "FittedItem", "position")).toHaveLength(3);
    expect(graph.links("USES").size).toBe(3);
    expect(graph.links("OFFERS").size).toBe(3);
    expect(graph.links("IS_MODEL").size).toBe(3);
    expect(names(graph, "Part", "massKg")).toEqual([0.004, 0.03, 0.12]);
    const offer = [...graph.links("OFFERS").values()].map(({ properties }) => properties);
    expect(offer).toContainEqual({ priceMinor: 2340, currency: "EUR" });
    expect(names(graph, "StockLot", "expires")).toContain("2027-03-31");
    // A part's stock repeated on the rows of two items is one lot, not two.
    expect(graph.nodes("StockLot").size).toBe(3);
  });

  it("keeps columns nobody knows with their rows", async () => {
    const graph = knownGraphOf((await take(flat)).changeSet);
    const extras = [...graph.links("USES").values()].map(({ extra }) => extra);
    expect(extras).toContainEqual({ Colour: "blue | red" });
  });

  it("changes nothing when taken in a second time", async () => {
    const graph = knownGraphOf((await take(flat)).changeSet);
    const again = await take(flat, {}, graph);
    expect(again.changeSet.changes).toEqual([]);
    expect(again.records.every(({ created, changed }) => created + changed === 0)).toBe(true);
    expect(add(again).accepted).toBe(4);
  });

  it("says what it would change, and leaves alone what the file leaves empty", async () => {
    const graph = knownGraphOf((await take(flat)).changeSet);
    const dearer = flat.replaceAll("1.50 EUR", "1.75 EUR").replaceAll("pawl spring", "");
    const proposal = await take(dearer, {}, graph);
    expect(proposal.changeSet.changes).toMatchObject([
      { kind: "update-link", type: "OFFERS", basedOn: 1, set: { priceMinor: 175 } },
    ]);
    expect(proposal.sample).toMatchObject([
      { kind: "changed", before: "priceMinor 150", after: "priceMinor 175" },
    ]);
    const after = knownGraphOf((await take(flat)).changeSet, proposal.changeSet);
    expect(names(after, "Part", "description")).toContain("pawl spring");
  });

  it("gives the same graph whatever the order of its rows", async () => {
    const [header = "", ...rows] = flat.split("\n");
    const expected = content(knownGraphOf((await take(flat)).changeSet));
    await fc.assert(
      fc.asyncProperty(fc.shuffledSubarray(rows, { minLength: rows.length }), async (shuffled) => {
        const proposal = await take([header, ...shuffled].join("\n"));
        expect(content(knownGraphOf(proposal.changeSet))).toEqual(expected);
      }),
      { numRuns: 12 },
    );
  });

  it("tells progress that never falls and ends at its total", async () => {
    const seen: number[] = [];
    let last = 0;
    await take(flat, {
      progress: (done, total) => {
        seen.push(done);
        last = total;
      },
    });
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)).toBe(last);
  });
});

describe("makers and part numbers", () => {
  it("keeps two makers' parts of one number apart", async () => {
    const graph = knownGraphOf(
      (await take("Maker,Model,Part number,Qty\nA,M1,100,1\nB,M2,100,1\n")).changeSet,
    );
    expect(graph.nodes("Part").size).toBe(2);
  });

  it("never merges by likeness, and matches by case alone", async () => {
    const text = "Maker,Model,Part number,Qty\nA,M,X-0001,1\nA,M,X-0003,1\nA,M,x-0001,1\n";
    const graph = knownGraphOf((await take(text)).changeSet);
    expect(names(graph, "Part", "partNumber")).toEqual(["X-0001", "X-0003"]);
  });

  it("finds the one maker of a number, else keeps it under an unknown one with a notice", async () => {
    const graph = knownGraphOf(
      (await take("Maker,Model,Part number,Qty\nA,M1,100,1\nA,M1,200,1\nB,M2,200,1\n")).changeSet,
    );
    const stock = await take(
      "Part number,On board,Locker\n100,2,Bin\n300,1,Bin\n200,1,Bin\n",
      { vessel: "Tern" },
      graph,
    );
    expect(add(stock)).toMatchObject({ accepted: 2, rejected: 1 });
    expect(stock.faults).toMatchObject([{ code: "value-missing", line: 4, value: "200" }]);
    expect(stock.notices).toMatchObject([{ code: "part-maker-unknown", count: 1, line: 3 }]);
    const created = stock.changeSet.changes.flatMap((change) =>
      change.kind === "create-node" && change.label === "Part" ? [change.properties] : [],
    );
    expect(created).toEqual([{ partNumber: "300" }]);
  });
});

describe("bad input", () => {
  const refusal = async (text: string | Uint8Array, options: ImportFileOptions = {}) => {
    const bytes = typeof text === "string" ? new TextEncoder().encode(text) : text;
    const error = await importFile(bytes, nothing, options).then(
      () => undefined,
      (reason: unknown) => reason,
    );
    return error instanceof Problem ? error : undefined;
  };

  it("refuses empty, header-only and binary files and columns it cannot match", async () => {
    expect((await refusal(""))?.code).toBe("file-empty");
    expect((await refusal("Part number,Qty\n"))?.code).toBe("file-empty");
    expect((await refusal(Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0)))?.code).toBe("file-binary");
    const unmatched = await refusal("Apples,Pears\n1,2\n");
    expect(unmatched?.code).toBe("columns-unmatched");
    expect(unmatched?.message).toContain("Apples, Pears");
  });

  it("says so when the delimiter given is the wrong one", async () => {
    const problem = await refusal(flat, { delimiter: ";" });
    expect(problem?.code).toBe("columns-unmatched");
    expect(problem?.message).toMatch(/delimiter/);
  });

  it("rejects rows one by one, each with line, column, rule, value and remedy", async () => {
    const text = [
      "Maker,Model,Part number,Qty,Supplier,Price,On board,Expires",
      "A,M,100,-2,S,1 EUR,1,",
      "A,M,101,2,S,1.50,1,",
      "A,M,102,2,S,1 EUR,1,31/02/2027",
      "A,M,1.23E+11,2,S,1 EUR,1,",
      "A,M,12-Oct,2,S,1 EUR,1,",
      "A,M,105,2,S,1 EUR,-1,",
      "A,M,106,2",
      "A,M,107,2,S,1 EUR,1,,surplus",
      "",
      "A,M,108,2,S,1 EUR,,2027-01-01",
      "A,M,,2,S,1 EUR,1,",
    ].join("\n");
    const proposal = await take(text, { vessel: "Tern" });
    expect(add(proposal)).toEqual({ read: 11, accepted: 1, rejected: 9, skipped: 1 });
    expect(proposal.faults.map(({ line, column, code }) => [line, column, code])).toEqual([
      [2, "Qty", "number-out-of-range"],
      [3, "Price", "currency-missing"],
      [4, "Expires", "date-impossible"],
      [5, "Part number", "part-number-mangled"],
      [6, "Part number", "part-number-mangled"],
      [7, "On board", "number-out-of-range"],
      [8, undefined, "row-short"],
      [9, undefined, "row-long"],
      [12, "Part number", "value-missing"],
    ]);
    for (const { rule, value, remedy } of proposal.faults) {
      expect(rule.length).toBeGreaterThan(10);
      expect(value.length).toBeGreaterThan(0);
      expect(remedy.length).toBeGreaterThan(10);
    }
    expect(names(knownGraphOf(proposal.changeSet), "Part", "partNumber")).toEqual(["108"]);
  });

  it("rejects the later of two rows that disagree and names both lines", async () => {
    const text =
      "Maker,Part number,Description,Qty,Model\nA,1,belt,1,M\nA,2,seal,1,M\nA,1,hose,1,M\n";
    const proposal = await take(text);
    expect(proposal.faults).toMatchObject([
      { code: "rows-disagree", line: 4, column: "Description", value: "hose" },
    ]);
    expect(proposal.faults[0]?.rule).toContain("line 2");
    expect(proposal.records).toContainEqual({
      label: "Part",
      created: 2,
      changed: 0,
      unchanged: 0,
      conflict: 1,
    });
  });

  it("rejects an item of two models, naming both lines", async () => {
    const text = "Vessel,Position,Maker,Model\nT,winch,A,M1\nT,winch,A,M2\n";
    const proposal = await take(text);
    expect(proposal.faults).toMatchObject([{ code: "rows-disagree", line: 3, column: "Model" }]);
  });

  it("relinks an item that the graph has as another model", async () => {
    const graph = knownGraphOf(
      (await take("Vessel,Position,Maker,Model\nT,winch,A,M1\n")).changeSet,
    );
    const proposal = await take("Vessel,Position,Maker,Model\nT,winch,A,M2\n", {}, graph);
    expect(proposal.changeSet.changes).toHaveLength(proposal.changeCount);
    expect(proposal.changeSet.changes.map(({ kind }) => kind)).toEqual([
      "create-node",
      "create-link",
      "delete-link",
      "create-link",
    ]);
    expect(proposal.sample.at(-1)).toMatchObject({ before: "model M1", after: "model M2" });
  });

  it("rejects rows in which two columns of one name disagree", async () => {
    const text = "Maker,Model,Part number,Qty,Qty\nA,M,1,2,2\nA,M,2,2,3\n";
    const proposal = await take(text);
    expect(codes(proposal)).toEqual(["columns-disagree"]);
    expect(proposal.notices).toMatchObject([{ code: "header-twice" }]);
  });

  it("keeps forty columns it does not know", async () => {
    const more = Array.from({ length: 40 }, (_, at) => `Own ${at}`);
    const cells = more.map((_, at) => `v${at}`);
    const text = `Maker,Model,Part number,Qty,${more.join(",")}\nA,M,1,2,${cells.join(",")}\n`;
    const graph = knownGraphOf((await take(text)).changeSet);
    const extra = [...graph.links("USES").values()][0]?.extra ?? {};
    expect(Object.keys(extra)).toHaveLength(40);
    expect(extra["Own 39"]).toBe("v39");
  });

  it("keeps a cell that begins with = + - @ as it stands", async () => {
    const text = 'Maker,Model,Part number,Qty,Description\nA,M,=12,1,"@home, -x"\n';
    const graph = knownGraphOf((await take(text)).changeSet);
    expect(names(graph, "Part", "partNumber")).toEqual(["=12"]);
    expect(names(graph, "Part", "description")).toEqual(["@home, -x"]);
  });

  it("rejects a cell of 1 MB in any column", async () => {
    const text = `Maker,Model,Part number,Qty,Note\nA,M,1,1,${"x".repeat(1 << 20)}\nA,M,2,1,ok\n`;
    const proposal = await take(text);
    expect(add(proposal)).toMatchObject({ accepted: 1, rejected: 1 });
    expect(rejectedCsv(proposal)?.length).toBeGreaterThan(1 << 20);
  });
});

describe("rejected rows", () => {
  it("come back as a file that can be corrected and taken in", async () => {
    const text =
      "Maker;Model;Teilenummer;Menge;Bemerkung\nA;M;1;2;=x\nA;M;2;-2;=SUM(A1)\nA;M;3;zwei;\n";
    const proposal = await take(text);
    const csv = rejectedCsv(proposal) ?? "";
    expect(csv).toContain("'=SUM(A1)");
    const unchanged = await take(csv);
    expect(codes(unchanged)).toEqual(codes(proposal));
    expect(unchanged.matching.columns.filter(({ ignored }) => ignored)).toHaveLength(5);
    const corrected = await take(csv.replace("-2", "2").replace("zwei", "2"));
    expect(add(corrected)).toMatchObject({ accepted: 2, rejected: 0 });
    const extra = [...knownGraphOf(corrected.changeSet).links("USES").values()].map((l) => l.extra);
    expect(extra).toContainEqual({ Bemerkung: "=SUM(A1)" });
  });

  it("are none when all is well", async () => {
    expect(rejectedCsv(await take(flat))).toBeUndefined();
  });
});

describe("foreign and untidy lists", () => {
  it("reads a German stock list with decimal commas and title lines", async () => {
    const text = [
      "Ersatzteile Ketsch;;;;;;",
      "Stand: 3. Mai;;;;;;",
      ";;;;;;",
      "Hersteller;Artikel-Nr.;Bezeichnung;Gewicht in g;Bestand;Lagerort;Haltbar bis",
      "Werk Nord;007.1;Dichtung;12,5;4 Stk.;Kiste 2;03/2028",
      "Werk Nord;007.2;Riemen;1.250,0;1;Kiste 2;",
    ].join("\r\n");
    const proposal = await take(text, { vessel: "Tern" });
    expect(proposal.matching.kind).toBe("stock");
    expect(proposal.faults).toEqual([]);
    const graph = knownGraphOf(proposal.changeSet);
    expect(names(graph, "Part", "massKg")).toEqual([0.0125, 1.25]);
    expect(names(graph, "StockLot", "expires")).toEqual(["2028-03-31", undefined]);
  });

  it("reads French offers with signs after the figure", async () => {
    const text =
      "Fournisseur;Fabricant;Référence;Désignation;Prix unitaire;Délai\nQuai;Usine;A-1;Joint;1 234,50 €;2 semaines\n";
    const proposal = await take(text);
    expect(proposal.matching.kind).toBe("offers");
    const graph = knownGraphOf(proposal.changeSet);
    expect([...graph.links("OFFERS").values()][0]?.properties).toEqual({
      priceMinor: 123450,
      currency: "EUR",
      leadTimeDays: 14,
    });
  });

  it("reads a word by the language of its neighbours: désignation is what a part is, not a model", async () => {
    const text =
      "Référence;Désignation;Marque;Qté à bord;Emplacement;Péremption;Poids\n0012;Turbine;Usine;3;Coffre tribord;06/2027;85 g\n0013;Courroie;Usine;2;Coffre tribord;;0,3 kg\n";
    const proposal = await take(text, { vessel: "Tern" });
    expect(proposal.matching.kind).toBe("stock");
    expect(mapped(proposal)).toMatchObject({
      Désignation: "Part.description",
      Emplacement: "Locker.name",
    });
    expect(add(proposal).accepted).toBe(2);
  });

  it("reads a Spanish parts list and a Dutch gear list", async () => {
    const parts = await take(
      "Modelo\tFabricante\tReferencia\tDescripción\tCantidad\nM1\tTaller\t9-1\tJunta\t2 uds\n",
    );
    expect(mapped(parts)).toEqual({
      Modelo: "Model.designation",
      Fabricante: "Maker.name",
      Referencia: "Part.partNumber",
      Descripción: "Part.description",
      Cantidad: "USES.quantity",
    });
    const gear = await take(
      "Schip|Positie|Merk|Model|Draaiuren\nTern|Bakboord lier|Fabriek|L-40|1.200,5\n",
    );
    expect(gear.matching.kind).toBe("gear");
    expect(names(knownGraphOf(gear.changeSet), "FittedItem", "hoursRun")).toEqual([1200.5]);
  });

  it("tells the kinds of list apart", async () => {
    const kindOf = async (text: string) => (await take(text, { vessel: "T" })).matching.kind;
    expect(await kindOf("Supplier,Email,Town,Country\nS,a@b,Port,X\n")).toBe("suppliers");
    expect(await kindOf("Vessel,Locker,Capacity (l)\nT,Bin,40\n")).toBe("lockers");
    expect(await kindOf("Vessel,Function,Tier,Need k\nT,steer,safety,1\n")).toBe("functions");
    expect(
      await kindOf("Maker,Model,Service,Interval hours,Part number,Service qty\nA,M,oil,250,1,2\n"),
    ).toBe("services");
    expect(await kindOf("Crossing,Days expected,Days longest\nEast,16,20\n")).toBe("crossings");
  });

  it("makes as many items as a gear list counts", async () => {
    const proposal = await take("Vessel,Item,Make,Model,Qty\nT,Deck winch,A,W1,2\n");
    expect(names(knownGraphOf(proposal.changeSet), "FittedItem", "position")).toEqual([
      "Deck winch 1",
      "Deck winch 2",
    ]);
    expect(proposal.notices).toMatchObject([{ code: "items-numbered" }]);
  });

  it("nests lockers by their list, and finds them again by a bare name", async () => {
    const list = await take("Vessel,Within,Locker\nT,Forepeak,Bin 3\nT,,Forepeak\nT,Bin 3,Tray\n");
    const graph = knownGraphOf(list.changeSet);
    expect(graph.links("IS_WITHIN").size).toBe(3);
    const stock = await take("Part number,Maker,On board,Locker\n1,A,2,Tray\n", {}, graph);
    const created = stock.changeSet.changes.filter(
      (change) => change.kind === "create-node" && change.label === "Locker",
    );
    expect(created).toEqual([]);
  });

  it("reads one interval column for hours and months", async () => {
    const proposal = await take(
      "Maker,Model,Service,Interval\nA,M,oil,250 h / 12 months\nA,M,belt,2 years\n",
    );
    const tasks = [...knownGraphOf(proposal.changeSet).nodes("ServiceTask").values()];
    expect(tasks.map(({ properties }) => properties)).toEqual([
      { name: "oil", intervalHours: 250, intervalMonths: 12 },
      { name: "belt", intervalMonths: 24 },
    ]);
  });

  it("takes the currency of a header, a column, or the file", async () => {
    const price = async (text: string, options: ImportFileOptions = {}) => {
      const graph = knownGraphOf((await take(text, options)).changeSet);
      return [...graph.links("OFFERS").values()][0]?.properties;
    };
    const usd = { priceMinor: 1250, currency: "USD" };
    expect(await price("Supplier,Maker,Part number,Price (USD)\nS,A,1,12.50\n")).toEqual(usd);
    expect(await price("Supplier,Maker,Part number,Price,Currency\nS,A,1,12.50,USD\n")).toEqual(
      usd,
    );
    expect(
      await price("Supplier,Maker,Part number,Price\nS,A,1,12.50\n", { currency: "USD" }),
    ).toEqual(usd);
  });
});

describe("mapping by hand", () => {
  const text = "Ding,Wer,Womit,Stueck\nM1,A,1,2\n";
  const mapping = {
    Ding: "Model.designation",
    Wer: "Maker.name",
    Womit: "Part.partNumber",
    Stueck: "USES.quantity",
  };

  it("overrides names", async () => {
    const proposal = await take(text, { mapping });
    expect(mapped(proposal)).toEqual(mapping);
    expect(
      proposal.matching.columns.every(({ byHand, confidence }) => byHand && confidence === 1),
    ).toBe(true);
  });

  it("refuses what names nothing", async () => {
    await expect(take(text, { mapping: { Nix: "Part.partNumber" } })).rejects.toMatchObject({
      code: "input-invalid",
    });
    await expect(take(text, { mapping: { Ding: "Part.colour" } })).rejects.toMatchObject({
      code: "input-invalid",
    });
    await expect(
      take(text, { mapping: { ...mapping, Wer: "Part.partNumber" } }),
    ).rejects.toMatchObject({ code: "input-invalid" });
  });

  it("leaves a column uninterpreted when mapped to null", async () => {
    const plain = await take(flat, { mapping: { "Weight (g)": null } });
    expect(mapped(plain)["Weight (g)"]).toBeUndefined();
  });
});
