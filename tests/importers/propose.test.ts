import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatList } from "./flat-list.ts";
import { knownGraphOf } from "./known-graph-of.ts";
import { account, content, mapped, names, takeText } from "./take-text.ts";

describe("a flat list", () => {
  it("becomes gear, parts, offers and stock", async () => {
    const proposal = await takeText(flatList);
    expect(proposal.matching.kind).toBe("flat");
    expect(account(proposal)).toEqual({ read: 4, accepted: 4, rejected: 0, skipped: 0 });
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
    const graph = knownGraphOf((await takeText(flatList)).changeSet);
    const extras = [...graph.links("USES").values()].map(({ extra }) => extra);
    expect(extras).toContainEqual({ Colour: "blue | red" });
  });

  it("changes nothing when taken in a second time", async () => {
    const graph = knownGraphOf((await takeText(flatList)).changeSet);
    const again = await takeText(flatList, {}, graph);
    expect(again.changeSet.changes).toEqual([]);
    expect(again.records.every(({ created, changed }) => created + changed === 0)).toBe(true);
    expect(account(again).accepted).toBe(4);
  });

  it("says what it would change, and leaves alone what the file leaves empty", async () => {
    const graph = knownGraphOf((await takeText(flatList)).changeSet);
    const dearer = flatList.replaceAll("1.50 EUR", "1.75 EUR").replaceAll("pawl spring", "");
    const proposal = await takeText(dearer, {}, graph);
    expect(proposal.changeSet.changes).toMatchObject([
      { kind: "update-link", type: "OFFERS", basedOn: 1, set: { priceMinor: 175 } },
    ]);
    expect(proposal.sample).toMatchObject([
      { kind: "changed", before: "priceMinor 150", after: "priceMinor 175" },
    ]);
    const after = knownGraphOf((await takeText(flatList)).changeSet, proposal.changeSet);
    expect(names(after, "Part", "description")).toContain("pawl spring");
  });

  it("gives the same graph whatever the order of its rows", async () => {
    const [header = "", ...rows] = flatList.split("\n");
    const expected = content(knownGraphOf((await takeText(flatList)).changeSet));
    await fc.assert(
      fc.asyncProperty(fc.shuffledSubarray(rows, { minLength: rows.length }), async (shuffled) => {
        const proposal = await takeText([header, ...shuffled].join("\n"));
        expect(content(knownGraphOf(proposal.changeSet))).toEqual(expected);
      }),
      { numRuns: 12 },
    );
  });

  it("tells progress that never falls and ends at its total", async () => {
    const seen: number[] = [];
    let last = 0;
    await takeText(flatList, {
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
      (await takeText("Maker,Model,Part number,Qty\nA,M1,100,1\nB,M2,100,1\n")).changeSet,
    );
    expect(graph.nodes("Part").size).toBe(2);
  });

  it("never merges by likeness, and matches by case alone", async () => {
    const text = "Maker,Model,Part number,Qty\nA,M,X-0001,1\nA,M,X-0003,1\nA,M,x-0001,1\n";
    const graph = knownGraphOf((await takeText(text)).changeSet);
    expect(names(graph, "Part", "partNumber")).toEqual(["X-0001", "X-0003"]);
  });

  it("finds the one maker of a number, else keeps it under an unknown one with a notice", async () => {
    const graph = knownGraphOf(
      (await takeText("Maker,Model,Part number,Qty\nA,M1,100,1\nA,M1,200,1\nB,M2,200,1\n"))
        .changeSet,
    );
    const stock = await takeText(
      "Part number,On board,Locker\n100,2,Bin\n300,1,Bin\n200,1,Bin\n",
      { vessel: "Tern" },
      graph,
    );
    expect(account(stock)).toMatchObject({ accepted: 2, rejected: 1 });
    expect(stock.faults).toMatchObject([{ code: "value-missing", line: 4, value: "200" }]);
    expect(stock.notices).toMatchObject([{ code: "part-maker-unknown", count: 1, line: 3 }]);
    const created = stock.changeSet.changes.flatMap((change) =>
      change.kind === "create-node" && change.label === "Part" ? [change.properties] : [],
    );
    expect(created).toEqual([{ partNumber: "300" }]);
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
    const proposal = await takeText(text, { mapping });
    expect(mapped(proposal)).toEqual(mapping);
    expect(
      proposal.matching.columns.every(({ byHand, confidence }) => byHand && confidence === 1),
    ).toBe(true);
  });

  it("refuses what names nothing", async () => {
    await expect(takeText(text, { mapping: { Nix: "Part.partNumber" } })).rejects.toMatchObject({
      code: "input-invalid",
    });
    await expect(takeText(text, { mapping: { Ding: "Part.colour" } })).rejects.toMatchObject({
      code: "input-invalid",
    });
    await expect(
      takeText(text, { mapping: { ...mapping, Wer: "Part.partNumber" } }),
    ).rejects.toMatchObject({ code: "input-invalid" });
  });

  it("leaves a column uninterpreted when mapped to null", async () => {
    const plain = await takeText(flatList, { mapping: { "Weight (g)": null } });
    expect(mapped(plain)["Weight (g)"]).toBeUndefined();
  });
});
