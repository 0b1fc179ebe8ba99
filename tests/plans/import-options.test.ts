import { describe, expect, it } from "vitest";
import type { ImportOptions } from "../../api/contract/import.contract.ts";
import { importFile } from "../../api/plans/import-file.ts";
import { openStore } from "../../api/store/open-store.ts";

const occasion = { who: "test", at: "2026-11-20T12:00:00.000Z" };

async function take(text: string, options: ImportOptions) {
  const store = await openStore({ db: ":memory:", env: {} });
  const source = { name: "list.csv", bytes: new TextEncoder().encode(text) };
  const answer = await importFile(store, source, options, occasion).finally(() => store.close());
  return { kind: answer.listKind, rows: answer.rows, titles: answer.file.titleLines };
}

describe("what is said of a whole file", () => {
  it("tells whose price list it is and in what money", async () => {
    const list = "Maker,Part number,Price\nA,1,2.50\n";
    const options = { supplier: "Quay", currency: "EUR" };
    expect(await take(list, options)).toMatchObject({ kind: "offers", rows: { accepted: 1 } });
  });

  it("tells the delimiter and the header's line where they mislead", async () => {
    const list = "a|b|c\nd|e|f\nMaker;Model;Part number;Qty\nA|B;M;1;2\n";
    const options = { delimiter: "semicolon", headerLine: 3 } as const;
    expect(await take(list, options)).toMatchObject({
      kind: "parts",
      rows: { read: 1, accepted: 1 },
      titles: 2,
    });
  });

  it("must name a currency there is", async () => {
    const list = "Supplier,Maker,Part number,Price\nS,A,1,2.50\n";
    await expect(take(list, { currency: "QQQ" })).rejects.toMatchObject({ code: "input-invalid" });
  });
});
