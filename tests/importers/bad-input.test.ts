import { describe, expect, it } from "vitest";
import { Problem } from "../../api/errors/problem.ts";
import { type ImportFileOptions, importFile, rejectedCsv } from "../../importers/index.ts";
import { flatList } from "./flat-list.ts";
import { knownGraphOf } from "./known-graph-of.ts";
import { account, codes, names, takeText } from "./take-text.ts";

describe("bad input", () => {
  const refusal = async (text: string | Uint8Array, options: ImportFileOptions = {}) => {
    const bytes = typeof text === "string" ? new TextEncoder().encode(text) : text;
    const error = await importFile(bytes, knownGraphOf(), options).then(
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
    const problem = await refusal(flatList, { delimiter: ";" });
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
    const proposal = await takeText(text, { vessel: "Tern" });
    expect(account(proposal)).toEqual({ read: 11, accepted: 1, rejected: 9, skipped: 1 });
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
    const proposal = await takeText(text);
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
    const proposal = await takeText(text);
    expect(proposal.faults).toMatchObject([{ code: "rows-disagree", line: 3, column: "Model" }]);
  });

  it("relinks an item that the graph has as another model", async () => {
    const graph = knownGraphOf(
      (await takeText("Vessel,Position,Maker,Model\nT,winch,A,M1\n")).changeSet,
    );
    const proposal = await takeText("Vessel,Position,Maker,Model\nT,winch,A,M2\n", {}, graph);
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
    const proposal = await takeText(text);
    expect(codes(proposal)).toEqual(["columns-disagree"]);
    expect(proposal.notices).toMatchObject([{ code: "header-twice" }]);
  });

  it("keeps forty columns it does not know", async () => {
    const more = Array.from({ length: 40 }, (_, at) => `Own ${at}`);
    const cells = more.map((_, at) => `v${at}`);
    const text = `Maker,Model,Part number,Qty,${more.join(",")}\nA,M,1,2,${cells.join(",")}\n`;
    const graph = knownGraphOf((await takeText(text)).changeSet);
    const extra = [...graph.links("USES").values()][0]?.extra ?? {};
    expect(Object.keys(extra)).toHaveLength(40);
    expect(extra["Own 39"]).toBe("v39");
  });

  it("keeps a cell that begins with = + - @ as it stands", async () => {
    const text = 'Maker,Model,Part number,Qty,Description\nA,M,=12,1,"@home, -x"\n';
    const graph = knownGraphOf((await takeText(text)).changeSet);
    expect(names(graph, "Part", "partNumber")).toEqual(["=12"]);
    expect(names(graph, "Part", "description")).toEqual(["@home, -x"]);
  });

  it("rejects a cell of 1 MB in any column", async () => {
    const text = `Maker,Model,Part number,Qty,Note\nA,M,1,1,${"x".repeat(1 << 20)}\nA,M,2,1,ok\n`;
    const proposal = await takeText(text);
    expect(account(proposal)).toMatchObject({ accepted: 1, rejected: 1 });
    expect(rejectedCsv(proposal)?.length).toBeGreaterThan(1 << 20);
  });
});

describe("rejected rows", () => {
  it("come back as a file that can be corrected and taken in", async () => {
    const text =
      "Maker;Model;Teilenummer;Menge;Bemerkung\nA;M;1;2;=x\nA;M;2;-2;=SUM(A1)\nA;M;3;zwei;\n";
    const proposal = await takeText(text);
    const csv = rejectedCsv(proposal) ?? "";
    expect(csv).toContain("'=SUM(A1)");
    const unchanged = await takeText(csv);
    expect(codes(unchanged)).toEqual(codes(proposal));
    expect(unchanged.matching.columns.filter(({ ignored }) => ignored)).toHaveLength(5);
    const corrected = await takeText(csv.replace("-2", "2").replace("zwei", "2"));
    expect(account(corrected)).toMatchObject({ accepted: 2, rejected: 0 });
    const extra = [...knownGraphOf(corrected.changeSet).links("USES").values()].map((l) => l.extra);
    expect(extra).toContainEqual({ Bemerkung: "=SUM(A1)" });
  });

  it("are none when all is well", async () => {
    expect(rejectedCsv(await takeText(flatList))).toBeUndefined();
  });
});
