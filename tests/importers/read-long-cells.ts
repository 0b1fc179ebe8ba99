import { parentPort } from "node:worker_threads";
import { readTable } from "../../importers/index.ts";

/**
 * Reads tables in which a long quoted cell begins and ends near the borders of the stretches that are scanned, closed,
 * left open or followed by text, at the end of the file or before more rows; tells how many were read.
 */
const stretch = 1 << 15;
const before = [0, stretch - 40, stretch - 1, stretch, stretch + 1];
const sizes = [10, stretch - 9, stretch, stretch + 1, 4 * stretch, 4 * stretch + 3];
let count = 0;
for (const start of before) {
  const filler = "x,y\n".repeat(Math.floor(start / 4)) + "x".repeat(start % 4);
  // Beyond a million characters the scanner leaves a cell to papaparse.
  for (const size of start === 0 ? [...sizes, 1_100_000] : sizes) {
    const cell = "line\n".repeat(Math.ceil(size / 5)).slice(0, size);
    for (const tail of ['"', '"\n', '",z\nx,y\n', "", '" z\nx,y', '""']) {
      const text = `k,l\n${filler},"${cell}${tail}`;
      const { rows } = readTable(text, { delimiter: ",", headerLine: 1 });
      if (rows.length > 0) count += 1;
    }
  }
}
parentPort?.postMessage(count);
