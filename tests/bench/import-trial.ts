import Papa from "papaparse";
import { importFile } from "../../importers/index.ts";
import { type FlatShapeName, flatShapes, generateFlatList } from "./generate-flat-list.ts";

/**
 * One side of the import bench in a process of its own, so that what one side teaches the engine about the life of
 * its objects does not slow the other, and so that its memory is its own: answers each message with one trial. Both sides start from the bytes of the file.
 * Arguments: `parse` or `dry-run`, the number of rows, and the shape of the list.
 */
const [what, rowText = "0", shape = "office"] = process.argv.slice(2);
const isShape = (name: string): name is FlatShapeName => Object.hasOwn(flatShapes, name);
if (!isShape(shape)) throw new Error(`no list has the shape ${shape}`);
const rows = Number(rowText);
const bytes = new TextEncoder().encode(generateFlatList(rows, 1, shape));
const emptyGraph = { nodes: () => new Map(), links: () => new Map() };

export interface Trial {
  readonly milliseconds: number;
  /** Processor time of the trial, the collector's threads included. */
  readonly cpuMilliseconds: number;
  /** Peak of the process so far. */
  readonly megabytes: number;
}

process.on("message", () => {
  const before = process.cpuUsage();
  void trial().then((milliseconds) => {
    const { user, system } = process.cpuUsage(before);
    const cpuMilliseconds = (user + system) / 1000;
    const megabytes = process.resourceUsage().maxRSS / 1000;
    process.send?.({ milliseconds, cpuMilliseconds, megabytes } satisfies Trial);
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
