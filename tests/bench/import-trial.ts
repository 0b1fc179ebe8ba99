import { parentPort, workerData } from "node:worker_threads";
import Papa from "papaparse";
import { importFile } from "../../importers/index.ts";
import { generateFlatList } from "./generate-flat-list.ts";

/**
 * One side of the import bench in an isolate of its own, so that what one side teaches the engine about the life of
 * its objects does not slow the other: answers each message with the milliseconds of one trial.
 */
const { what, rows } = workerData as { what: "parse" | "dry-run"; rows: number };
const text = generateFlatList(rows, 1);
const bytes = new TextEncoder().encode(text);
const emptyGraph = { nodes: () => new Map(), links: () => new Map() };

parentPort?.on("message", () => {
  void trial().then((milliseconds) => parentPort?.postMessage(milliseconds));
});

async function trial(): Promise<number> {
  const start = performance.now();
  if (what === "parse") {
    const { data } = Papa.parse(text);
    if (data.length < rows) throw new Error("papaparse lost rows");
  } else {
    const { rows: account } = await importFile(bytes, emptyGraph);
    if (account.accepted !== rows) throw new Error(`accepted ${account.accepted} of ${rows} rows`);
  }
  return performance.now() - start;
}
