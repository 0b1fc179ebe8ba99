import { describe, expect, it } from "vitest";
import { Problem } from "../../api/errors/problem.ts";
import type { ImportFileOptions } from "../../importers/index.ts";
import { knownGraphOf } from "./known-graph-of.ts";
import { account, codes, mapped, names, noticeCodes, takeText } from "./take-text.ts";

const refusal = async (text: string, options: ImportFileOptions = {}): Promise<Problem> => {
  const error = await takeText(text, options).then(
    () => undefined,
    (reason: unknown) => reason,
  );
  if (!(error instanceof Problem)) throw new Error("the file was not refused");
  return error;
};

describe("lists as people keep them", () => {
  it("takes a list of three columns, and says what stands for the number", async () => {
    const proposal = await takeText(
      "part,qty,where\nImpeller 21-B,2,chart table\nV-belt 13x900,1,engine room\n",
      { vessel: "Tern" },
    );
    expect(proposal.matching.kind).toBe("stock");
    expect(mapped(proposal)).toEqual({
      part: "Part.partNumber",
      qty: "StockLot.quantity",
      where: "Locker.name",
    });
    expect(account(proposal).accepted).toBe(2);
    expect(noticeCodes(proposal)).toContain("part-as-number");
  });

  it.each([
    ["Teil;Hersteller;Lieferant;Preis", "Teil"],
    ["Pièce;Fabricant;Fournisseur;Prix", "Pièce"],
    ["Pieza;Fabricante;Proveedor;Precio", "Pieza"],
    ["Onderdeel;Fabrikant;Leverancier;Prijs", "Onderdeel"],
    ["Ricambio;Produttore;Fornitore;Prezzo", "Ricambio"],
    ["Peça;Fabricante;Fornecedor;Preço", "Peça"],
  ])("reads %s as offers of parts", async (header, part) => {
    const proposal = await takeText(`${header}\nB-7;Größmann;Krull & Söhne;12,00 €\n`);
    expect(proposal.matching.kind).toBe("offers");
    expect(mapped(proposal)[part]).toBe("Part.partNumber");
    expect(account(proposal).accepted).toBe(1);
  });

  it("leaves a part's name a name where its number stands beside it", async () => {
    const proposal = await takeText("Teil;Teilenummer;Hersteller;Bestand\nDichtung;007;Nord;2\n", {
      vessel: "Tern",
    });
    expect(mapped(proposal)).toMatchObject({
      Teil: "Part.description",
      Teilenummer: "Part.partNumber",
    });
    expect(noticeCodes(proposal)).not.toContain("part-as-number");
  });

  it("takes a column of gear for its model where no column names one", async () => {
    const proposal = await takeText(
      [
        "Ersatzteilliste SY Morgenbrise;;;;;;",
        "Stand: 12.03.2026;;;;;;",
        "Gerät;Hersteller;Teilenummer;Bezeichnung;Menge;Preis;Lieferant",
        "Wasserpumpe WP-40;Ostrelm;0047-110;Impeller;1;18,50 €;Bootsladen Krull",
        'Ankerwinde AW 900;Teffkamp;000815;Kohlebürste;2;"1.234,50 €";Bootsladen Krull',
        ";;;Summe;3;1.253,00 €;",
      ].join("\r\n"),
    );
    expect(mapped(proposal)).toMatchObject({
      Gerät: "Model.designation",
      Menge: "USES.quantity",
    });
    expect(account(proposal)).toEqual({ read: 3, accepted: 2, rejected: 0, skipped: 1 });
    expect(noticeCodes(proposal)).toContain("gear-as-model");
    const graph = knownGraphOf(proposal.changeSet);
    expect(names(graph, "Part", "partNumber")).toEqual(["000815", "0047-110"]);
    const prices = [...graph.links("OFFERS").values()].map((offer) => offer.properties);
    expect(prices.map(({ priceMinor }) => priceMinor).sort()).toEqual([123450, 1850]);
  });

  it("lets gear be gear where a model stands beside it, and stock be stock", async () => {
    const both = await takeText("Equipment,Model,Maker,Part no,Qty\nPort winch,W46,D,1,2\n", {
      vessel: "Tern",
    });
    expect(mapped(both)).toMatchObject({
      Equipment: "FittedItem.position",
      Model: "Model.designation",
    });
    const stock = await takeText("Equipment,Part no,Maker,Qty,Locker\nWinch,1,D,2,Bow\n", {
      vessel: "Tern",
    });
    expect(mapped(stock)["Qty"]).toBe("StockLot.quantity");
    expect(mapped(stock)["Equipment"]).toBeUndefined();
  });

  it("reads a service list that names engines, with intervals in words", async () => {
    const proposal = await takeText(
      [
        "Engine,Make,Job,Every,Part used,Qty",
        "D-33,Kromm,Oil change,250 h / 12 months,OF-12,1",
        "D-33,Kromm,Impeller,yearly,IMP-3,1",
        "D-33,Kromm,Anode,half-yearly,AN-1,2",
      ].join("\n"),
    );
    expect(proposal.matching.kind).toBe("services");
    expect(mapped(proposal)).toMatchObject({
      Engine: "Model.designation",
      "Part used": "Part.partNumber",
    });
    expect(account(proposal).accepted).toBe(3);
    expect(names(knownGraphOf(proposal.changeSet), "ServiceTask", "intervalMonths")).toEqual([
      12, 12, 6,
    ]);
  });

  it("fills places down that stand as headings only, and passes the headings over", async () => {
    const text = [
      "SPARES INVENTORY,,,,",
      "Printed 14-Mar-2026  page 1 of 2,,,,",
      ",,,,",
      "Location,Item,Part No.,Mfr,On hand",
      "ENGINE ROOM,,,,",
      ",Oil filter,OF-12,Kromm,3",
      ",Fuel filter,FF-13,Kromm,2 pcs",
      "FOREPEAK,,,,",
      ",Shackle 10mm,SH10,Fenwike,~6",
      ",Rope,,,20 m",
      "Location,Item,Part No.,Mfr,On hand",
      ",Total,,,34",
      "End of list,,,,",
    ].join("\n");
    const proposal = await takeText(text, { vessel: "Tern", fillDown: ["Location"] });
    expect(account(proposal)).toEqual({ read: 9, accepted: 3, rejected: 1, skipped: 5 });
    expect(codes(proposal)).toEqual(["unit-unknown"]);
    const graph = knownGraphOf(proposal.changeSet);
    expect(names(graph, "Locker", "name")).toEqual(["ENGINE ROOM", "FOREPEAK"]);
    const unfilled = await takeText(text, { vessel: "Tern" });
    expect(account(unfilled)).toMatchObject({ accepted: 3, skipped: 5 });
    expect(names(knownGraphOf(unfilled.changeSet), "Locker", "name")).toEqual([]);
  });

  it("keeps an offer whose lead time is in words, and says that it was left open", async () => {
    const proposal = await takeText(
      "Supplier,Part number,Maker,Price,Lead time,,,\nCobalt,A-1,F,ca. 12.50 GBP,in stock,,,\nCobalt,A-2,F,10-12 GBP,3 days,,,\nCobalt,A-3,F,4 GBP,ab Lager,,,\n",
    );
    expect(account(proposal)).toMatchObject({ accepted: 2, rejected: 1 });
    expect(proposal.faults[0]?.rule).toContain("this is a range");
    const offers = [...knownGraphOf(proposal.changeSet).links("OFFERS").values()];
    expect(offers.map(({ properties }) => properties)).toEqual([
      { priceMinor: 1250, currency: "GBP" },
      { priceMinor: 400, currency: "GBP" },
    ]);
    expect(proposal.notices.find(({ code }) => code === "lead-time-in-words")?.count).toBe(2);
    expect(noticeCodes(proposal)).toContain("rough-figure");
  });

  it("takes no running number for a batch, and Mfg for the maker", async () => {
    const proposal = await takeText(
      "#,P/N,Mfg,Qty on board,Exp. Date\n1,OF-12,Kromm,3,12/31/2027\n2,B-1,Kromm,1,no expiry\n",
      { vessel: "Tern" },
    );
    expect(mapped(proposal)).toMatchObject({ "#": undefined, Mfg: "Maker.name" });
    expect(account(proposal).accepted).toBe(2);
    expect(noticeCodes(proposal)).toContain("expiry-in-words");
    expect(names(knownGraphOf(proposal.changeSet), "StockLot", "expires")).toEqual([
      "2027-12-31",
      undefined,
    ]);
  });

  it("reads German intervals: figures of thousands, two in one cell", async () => {
    const proposal = await takeText(
      [
        "Motor;Hersteller;Wartung;Intervall",
        "D-33;Kromm;Ölwechsel;alle 250 Std. oder jährlich",
        "D-33;Kromm;Impeller;2 Jahre",
        "D-33;Kromm;Zahnriemen;1.500 Bh",
        "D-33;Kromm;Ventile;1.000 Bh",
      ].join("\n"),
    );
    expect(account(proposal)).toMatchObject({ accepted: 3, rejected: 1 });
    expect(codes(proposal)).toEqual(["number-ambiguous"]);
    const tasks = [...knownGraphOf(proposal.changeSet).nodes("ServiceTask").values()];
    expect(
      tasks.map(({ properties }) => [properties["intervalHours"], properties["intervalMonths"]]),
    ).toEqual([
      [250, 12],
      [undefined, 24],
      [1500, undefined],
    ]);
  });

  it("says that a rate is a plain number, and what to do with what it is per", async () => {
    const proposal = await takeText(
      "Model,Maker,Part no,Qty,Failure rate\nBP,Gurdle,G-3,1,0.5 per year\nBP,Gurdle,G-4,1,0.5\n",
    );
    expect(account(proposal)).toMatchObject({ accepted: 1, rejected: 1 });
    expect(proposal.faults[0]?.remedy).toContain("what it is per in a column of its own");
  });

  it("ties parts that a list says are equal, and refuses a list of which it knows one column", async () => {
    const proposal = await takeText("Part;equals;Remarks\nA1;B2;same bolts\nA2;C2;\n");
    expect(proposal.matching.kind).toBe("interchange");
    expect(account(proposal).accepted).toBe(2);
    const problem = await refusal("Part;Colour;Remarks\nA1;red;\nA2;blue;\n");
    expect(problem.code).toBe("columns-unmatched");
  });

  it("reads the longest days of a Spanish crossing", async () => {
    const proposal = await takeText(
      "Travesía;Salida;Días;Máx. días;Barco\nCanarias - Caribe;15/01/2027;18;25;Mistral Verde\n",
    );
    expect(mapped(proposal)["Máx. días"]).toBe("Crossing.daysLongest");
  });

  it("knows a ship's store room by its Spanish name", async () => {
    const proposal = await takeText(
      "sep=;\nBarco;Pañol;Referencia;Fabricante;Cantidad\nMistral Verde;Pañol de proa;BG-220;Lucermar;6\n",
    );
    expect(mapped(proposal)["Pañol"]).toBe("Locker.name");
    expect(account(proposal).accepted).toBe(1);
  });
});

describe("files that are no lists", () => {
  it.each([
    ["a web page", '<!DOCTYPE html><html><body><table><tr><td>Part</td></tr></table>\n<p>"a'],
    ["a JSON document", '[{"part":"A1","qty":2},\n{"part":"A2","qty":3}]'],
    ["an XML document", '<?xml version="1.0"?>\n<parts>\n<part/>\n</parts>'],
  ])("are refused as %s", async (what, text) => {
    const problem = await refusal(text);
    expect(problem.code).toBe("file-binary");
    expect(problem.message).toContain(what);
  });

  it("are empty where they hold nothing but what parts cells", async () => {
    expect((await refusal("\n\n ,,\n;;\n")).message).toContain("holds no text");
  });

  it("are told to get a line of column names where the first line looks like data", async () => {
    const problem = await refusal(
      "Impeller 21-B,Ostrelm,2,chart table\nFilter,Kromm,4,engine room\n",
    );
    expect(problem.code).toBe("columns-unmatched");
    expect(problem.message).toContain("write a line of column names above it");
    expect(problem.message).toContain('--map "Impeller 21-B=Part.partNumber"');
  });

  it("have no header on a line past their end", async () => {
    const problem = await refusal("Part number,Maker\nA,B\n", { headerLine: 99 });
    expect(problem.message).toContain("received 99, and the file has 2 lines");
  });

  it("name what a mapping can be, of the owner that was meant", async () => {
    const problem = await refusal("Code,Maker\nA,B\n", { mapping: { Code: "Part.no" } });
    expect(problem.message).toContain("Part.partNumber");
    expect(problem.message).not.toContain("Vessel");
  });
});
