import { describe, expect, it } from "vitest";
import type { ImportFileOptions } from "../../importers/index.ts";
import { knownGraphOf } from "./known-graph-of.ts";
import { account, mapped, names, takeText } from "./take-text.ts";

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
    const proposal = await takeText(text, { vessel: "Tern" });
    expect(proposal.matching.kind).toBe("stock");
    expect(proposal.faults).toEqual([]);
    const graph = knownGraphOf(proposal.changeSet);
    expect(names(graph, "Part", "massKg")).toEqual([0.0125, 1.25]);
    expect(names(graph, "StockLot", "expires")).toEqual(["2028-03-31", undefined]);
  });

  it("reads French offers with signs after the figure", async () => {
    const text =
      "Fournisseur;Fabricant;Référence;Désignation;Prix unitaire;Délai\nQuai;Usine;A-1;Joint;1 234,50 €;2 semaines\n";
    const proposal = await takeText(text);
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
    const proposal = await takeText(text, { vessel: "Tern" });
    expect(proposal.matching.kind).toBe("stock");
    expect(mapped(proposal)).toMatchObject({
      Désignation: "Part.description",
      Emplacement: "Locker.name",
    });
    expect(account(proposal).accepted).toBe(2);
  });

  it("reads a Spanish parts list and a Dutch gear list", async () => {
    const parts = await takeText(
      "Modelo\tFabricante\tReferencia\tDescripción\tCantidad\nM1\tTaller\t9-1\tJunta\t2 uds\n",
    );
    expect(mapped(parts)).toEqual({
      Modelo: "Model.designation",
      Fabricante: "Maker.name",
      Referencia: "Part.partNumber",
      Descripción: "Part.description",
      Cantidad: "USES.quantity",
    });
    const gear = await takeText(
      "Schip|Positie|Merk|Model|Draaiuren\nTern|Bakboord lier|Fabriek|L-40|1.200,5\n",
    );
    expect(gear.matching.kind).toBe("gear");
    expect(names(knownGraphOf(gear.changeSet), "FittedItem", "hoursRun")).toEqual([1200.5]);
  });

  it("tells the kinds of list apart", async () => {
    const kindOf = async (text: string) => (await takeText(text, { vessel: "T" })).matching.kind;
    expect(await kindOf("Supplier,Email,Town,Country\nS,a@b,Port,X\n")).toBe("suppliers");
    expect(await kindOf("Vessel,Locker,Capacity (l)\nT,Bin,40\n")).toBe("lockers");
    expect(await kindOf("Vessel,Function,Tier,Need k\nT,steer,safety,1\n")).toBe("functions");
    expect(
      await kindOf("Maker,Model,Service,Interval hours,Part number,Service qty\nA,M,oil,250,1,2\n"),
    ).toBe("services");
    expect(await kindOf("Crossing,Days expected,Days longest\nEast,16,20\n")).toBe("crossings");
  });

  it("makes as many items as a gear list counts", async () => {
    const proposal = await takeText("Vessel,Item,Make,Model,Qty\nT,Deck winch,A,W1,2\n");
    expect(names(knownGraphOf(proposal.changeSet), "FittedItem", "position")).toEqual([
      "Deck winch 1",
      "Deck winch 2",
    ]);
    expect(proposal.notices).toMatchObject([{ code: "items-numbered" }]);
  });

  it("nests lockers by their list, and finds them again by a bare name", async () => {
    const list = await takeText(
      "Vessel,Within,Locker\nT,Forepeak,Bin 3\nT,,Forepeak\nT,Bin 3,Tray\n",
    );
    const graph = knownGraphOf(list.changeSet);
    expect(graph.links("IS_WITHIN").size).toBe(3);
    const stock = await takeText("Part number,Maker,On board,Locker\n1,A,2,Tray\n", {}, graph);
    const created = stock.changeSet.changes.filter(
      (change) => change.kind === "create-node" && change.label === "Locker",
    );
    expect(created).toEqual([]);
  });

  it("reads one interval column for hours and months", async () => {
    const proposal = await takeText(
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
      const graph = knownGraphOf((await takeText(text, options)).changeSet);
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
