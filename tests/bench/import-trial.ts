import Papa from "papaparse";
import { importFile } from "../../importers/index.ts";
import { generateFlatList } from "./generate-flat-list.ts";

/**
 * One side of the import bench in a process of its own, so that what one side teaches the engine about the life of
 * its objects does not slow the other, and so that its memory is its own: answers each message with one trial. Both sides start from the bytes of the file.
 * Arguments: `parse` or `dry-run`, and the number of rows.
 */
const [what, rowText = "0"] = process.argv.slice(2);
const rows = Number(rowText);
const bytes = new TextEncoder().encode(generateFlatList(rows, 1));
const emptyGraph = { nodes: () => new Map(), links: () => new Map() };

export interface Trial {
  readonly milliseconds: number;
  /** Peak of the process so far. */
  readonly megabytes: number;
}

process.on("message", () => {
  void trial().then((milliseconds) => {
    const megabytes = process.resourceUsage().maxRSS / 1000;
    process.send?.({ milliseconds, megabytes } satisfies Trial);
  });
});

async function trial(): Promise<number> {
  const start = performance.now();
  if (what === "parse") {
    const { data } = Papa.parse(new TextDecoder().decode(bytes));
    if (data.length < rows) throw new Error("papaparse lost rows");
  } else {
    const { rows: account } = await importFile(bytes, emptyGraph);
    if (account.accepted !== rows) throw new Error(`accepted ${account.accepted} of ${rows} rows`);
  }
  return performance.now() - start;
}
