import { describe, expect, it } from "vitest";
import type { RelationshipType } from "../../graph-schema/index.ts";
import type { KnownGraph } from "../../importers/change-set.ts";
import type { Proposal } from "../../importers/index.ts";
import { knownGraphOf } from "./known-graph-of.ts";
import { account, codes, mapped, noticeCodes, takeText } from "./take-text.ts";

/** A graph's relationships of a type in words: "number -> number" and what is said of them. */
function linksOf(graph: KnownGraph, type: RelationshipType): Record<string, unknown> {
  const name = new Map(
    (["Part", "Order", "Supplier"] as const).flatMap((label) =>
      [...graph.nodes(label).values()].map(({ id, properties }) => [
        id,
        String(properties["partNumber"] ?? properties["reference"] ?? properties["name"]),
      ]),
    ),
  );
  return Object.fromEntries(
    [...graph.links(type).values()].map(({ from, to, properties }) => [
      `${name.get(from)} -> ${name.get(to)}`,
      properties,
    ]),
  );
}

const graphOf = (proposal: Proposal) => knownGraphOf(proposal.changeSet);

describe("a list of interchanges", () => {
  const list =
    "Maker A,Part A,Maker B,Part B,Confirmed,Source\nNorth,1,South,9,yes,fitted\nNorth,2,South,8,?,looks alike\nNorth,3,South,7,,\n";

  it("ties parts of two makers, sure and unsure, and says where nobody is", async () => {
    const proposal = await takeText(list);
    expect(proposal.matching.kind).toBe("interchange");
    expect(account(proposal).accepted).toBe(3);
    expect(linksOf(graphOf(proposal), "INTERCHANGES_WITH")).toEqual({
      "1 -> 9": { confidence: "confirmed", source: "fitted" },
      "2 -> 8": { confidence: "unproven", source: "looks alike" },
      "3 -> 7": {},
    });
    expect(noticeCodes(proposal)).toEqual(["confidence-unstated"]);
  });

  it("knows a pair the other way round as the same pair", async () => {
    const graph = graphOf(await takeText(list));
    const turned =
      "Maker,Part number,Interchanges with,Other maker,Confirmed\nSouth,9,1,North,yes\nSouth,8,2,North,no\nSouth,7,3,North,\n";
    expect((await takeText(turned, {}, graph)).changeSet.changes).toEqual([]);
    const both = await takeText(
      "Maker A,Part A,Maker B,Part B,Confirmed\nA,1,B,2,yes\nB,2,A,1,no\n",
    );
    expect(codes(both)).toEqual(["rows-disagree"]);
  });

  it("describes each part by its own columns, and rejects words that differ", async () => {
    const proposal = await takeText(
      "Maker,Part number,Description,Other maker,Interchanges with,Other description\nN,1,belt,S,9,V-belt\nN,2,hose,S,9,hose\n",
    );
    expect(codes(proposal)).toEqual(["rows-disagree"]);
    const parts = [...graphOf(proposal).nodes("Part").values()].map(({ properties }) => properties);
    expect(parts).toContainEqual({ partNumber: "1", description: "belt" });
    expect(parts).toContainEqual({ partNumber: "9", description: "V-belt" });
  });

  it("looks up the maker of the other part where no column names him", async () => {
    const known = graphOf(await takeText("Maker,Model,Part number,Qty\nSouth,M,9,1\n"));
    const proposal = await takeText(
      "Fabricant;Référence;Équivalent\nNord;1;9\nNord;2;\nNord;5;6\n",
      {},
      known,
    );
    expect(account(proposal)).toMatchObject({ accepted: 2, rejected: 1 });
    expect(codes(proposal)).toEqual(["value-missing"]);
    // 9 is South's; nobody is known to make 6.
    expect(noticeCodes(proposal)).toContain("part-maker-unknown");
    const created = proposal.changeSet.changes.flatMap((change) =>
      change.kind === "create-node" && change.label === "Part" ? [change.key] : [],
    );
    expect(created).toEqual(["nord\u001f1", "nord\u001f5", "unknown maker\u001f6"]);
  });
});

describe("a list of replaced numbers", () => {
  it("keeps a chain, under one maker unless another is named", async () => {
    const proposal = await takeText(
      "Hersteller;Alte Nummer;Ersetzt durch;Quelle\nW;A-1;A-2;Blatt 4\nW;A-2;A-3;Blatt 9\nW;B-1;A-3;\n",
    );
    expect(proposal.matching.kind).toBe("supersession");
    expect(linksOf(graphOf(proposal), "SUPERSEDED_BY")).toEqual({
      "A-1 -> A-2": { source: "Blatt 4" },
      "A-2 -> A-3": { source: "Blatt 9" },
      "B-1 -> A-3": {},
    });
    expect(graphOf(proposal).nodes("Maker").size).toBe(1);
  });

  it("refuses a circle, in the file or closed over the graph", async () => {
    const list = "Maker,Old,New part number\nW,A,B\nW,B,C\nW,C,A\nW,D,D\n";
    const proposal = await takeText(list);
    expect(proposal.faults.map(({ line, value }) => [line, value])).toEqual([
      [4, "A"],
      [5, "D"],
    ]);
    const again = await takeText("Maker,Old,New part number\nW,C,B\n", {}, graphOf(proposal));
    expect(codes(again)).toEqual(["value-invalid"]);
  });
});

describe("the contents of service kits", () => {
  it("ties a kit to what is inside it, with quantities", async () => {
    const proposal = await takeText(
      "Kit number,Kit name,Maker,Part number,Description,Qty\nK1,Pump kit,P,1,seal,2 pcs\nK1,Pump kit,P,2,gasket,1\nK2,Big kit,P,K1,,1\nK1,Pump kit,P,K2,,1\nK1,Pump kit,P,3,ring,\n",
    );
    expect(proposal.matching.kind).toBe("kits");
    expect(codes(proposal)).toEqual(["value-invalid", "value-missing"]);
    expect(linksOf(graphOf(proposal), "CONTAINS")).toEqual({
      "K1 -> 1": { quantity: 2 },
      "K1 -> 2": { quantity: 1 },
      "K2 -> K1": { quantity: 1 },
    });
    const kit = [...graphOf(proposal).nodes("Part").values()].find(
      ({ properties }) => properties["partNumber"] === "K1",
    );
    expect(kit?.properties["description"]).toBe("Pump kit");
  });
});

describe("a list of orders", () => {
  const list =
    "Order no,Supplier,Status,Ordered on,Expected,Maker,Part no,Qty,Price\nO-1,Quay,bestellt,2026-11-02,2026-12-01,M,1,4,2.50 EUR\nO-1,Quay,bestellt,2026-11-02,2026-12-01,M,2,1,\n";

  it("gathers the lines of an order, and adds to an order it knows", async () => {
    const first = await takeText(list);
    expect(first.matching.kind).toBe("orders");
    const graph = graphOf(first);
    const [order] = graph.nodes("Order").values();
    expect(order?.properties).toMatchObject({
      reference: "O-1",
      status: "placed",
      placed: "2026-11-02",
      expected: "2026-12-01",
    });
    expect(order?.properties["lines"]).toHaveLength(2);
    expect(linksOf(graph, "ORDERED_FROM")).toEqual({ "O-1 -> Quay": {} });
    expect((await takeText(list, {}, graph)).changeCount).toBe(0);
    const more = await takeText("Order no,Supplier,Maker,Part no,Qty\nO-1,Quay,M,3,7\n", {}, graph);
    const after = knownGraphOf(first.changeSet, more.changeSet);
    const lines = [...after.nodes("Order").values()][0]?.properties["lines"];
    expect(lines).toHaveLength(3);
    expect(lines).toContainEqual(expect.objectContaining({ quantity: 4, priceMinor: 250 }));
  });

  it("refuses a second supplier, a second quantity and a line without one", async () => {
    const proposal = await takeText(
      `${list}O-1,Mole,,,,M,3,1,\nO-1,Quay,,,,M,1,5,2.50 EUR\nO-1,Quay,,,,M,4,,\nO-2,Quay,,,,M,4,0,\n`,
    );
    expect(codes(proposal)).toEqual([
      "rows-disagree",
      "rows-disagree",
      "value-missing",
      "number-out-of-range",
    ]);
  });

  it("names orders without a number and says so; a state is presumed, not invented silently", async () => {
    const proposal = await takeText(
      "Leverancier;Merk;Artikelnr;Besteld aantal;Besteld op\nKade;M;1;2;2-11-2026\nKade;M;2;2;\n",
      { dateOrder: "dmy" },
    );
    const orders = [...graphOf(proposal).nodes("Order").values()].map(({ properties }) => [
      properties["reference"],
      properties["status"],
    ]);
    expect(orders).toEqual([
      ["Kade 2026-11-02", "placed"],
      ["Kade", "planned"],
    ]);
    expect(noticeCodes(proposal)).toEqual(["order-named", "order-status-presumed"]);
  });
});

describe("the legs of a crossing", () => {
  const list =
    "Crossing,Leg,From,To,Days,Longest days\nOver,2,Praia,Bridgetown,14.5,18\nOver,1,Mindelo,Praia,36 h,2\n".replace(
      "36 h",
      "1.5",
    );

  it("are put in order, and make up a crossing that is not known", async () => {
    const proposal = await takeText(list);
    expect(proposal.matching.kind).toBe("legs");
    expect([...graphOf(proposal).nodes("Crossing").values()][0]?.properties).toEqual({
      name: "Over",
      daysExpected: 16,
      daysLongest: 20,
      legs: [
        { from: "Mindelo", to: "Praia", days: 1.5, longestDays: 2 },
        { from: "Praia", to: "Bridgetown", days: 14.5, longestDays: 18 },
      ],
    });
    expect(noticeCodes(proposal)).toEqual(["days-from-legs"]);
    expect((await takeText(list, {}, graphOf(proposal))).changeCount).toBe(0);
  });

  it("leave the days of a known crossing alone, and say where they differ", async () => {
    const known = graphOf(await takeText("Crossing,Days expected,Days longest\nOver,17,20\n"));
    const proposal = await takeText(list, {}, known);
    expect(noticeCodes(proposal)).toEqual(["leg-days-differ"]);
    expect(proposal.changeSet.changes).toMatchObject([{ kind: "update-node" }]);
  });

  it("are taken together or not at all", async () => {
    const proposal = await takeText(
      `${list}Over,3,Bridgetown,Bequia,a while,3\nBack,1,,Horta,9,8\n`,
    );
    expect(account(proposal)).toMatchObject({ accepted: 0, rejected: 4 });
    expect(codes(proposal)).toEqual([
      "value-invalid",
      "value-invalid",
      "number-unreadable",
      "number-out-of-range",
    ]);
    expect(proposal.faults[0]?.rule).toContain("line 4");
  });

  it("need numbers of their own, on all rows or on none", async () => {
    const numbers = async (...of: readonly string[]) =>
      codes(
        await takeText(
          `Crossing,Leg no,To port,Days\n${of.map((n, at) => `Over,${n},P${at},2`).join("\n")}\n`,
        ),
      );
    expect(await numbers("", "")).toEqual([]);
    expect(await numbers("1", "1")).toEqual(["value-invalid", "value-invalid"]);
    expect(await numbers("1", "")).toEqual(["value-invalid", "value-invalid"]);
  });
});

describe("columns of these lists", () => {
  it("are known by their names in other languages", async () => {
    expect(
      mapped(
        await takeText(
          "Produttore;Codice;Intercambiabile con;Altro produttore;Confermato;Fonte\nA;1;2;B;sì;prova\n",
        ),
      ),
    ).toEqual({
      Produttore: "Maker.name",
      Codice: "Part.partNumber",
      "Intercambiabile con": "INTERCHANGES_WITH.otherPart",
      "Altro produttore": "INTERCHANGES_WITH.otherMaker",
      Confermato: "INTERCHANGES_WITH.confidence",
      Fonte: "INTERCHANGES_WITH.source",
    });
    const kindOf = async (text: string) => (await takeText(text)).matching.kind;
    expect(await kindOf("Fabricante;Referencia antigua;Sustituido por\nA;1;2\n")).toBe(
      "supersession",
    );
    expect(await kindOf("Fabricant;Kit;Référence;Quantité par kit\nA;K;2;1\n")).toBe("kits");
    expect(await kindOf("Onderhoudsset;Merk;Onderdeelnummer;Aantal in set\nK;A;2;1\n")).toBe(
      "kits",
    );
    expect(
      await kindOf("Pedido;Proveedor;Referencia;Cantidad pedida;Estado\n1;Q;2;1;abierto\n"),
    ).toBe("orders");
    expect(await kindOf("Encomenda;Fornecedor;Referência;Quantidade encomendada\n1;Q;2;1\n")).toBe(
      "orders",
    );
    expect(await kindOf("Traversée;Étape;De;Vers;Jours\nNord;1;A;B;4\n")).toBe("legs");
    expect(await kindOf("Travessia;Etapa;De;Para;Dias\nNorte;1;A;B;4\n")).toBe("legs");
  });
});
