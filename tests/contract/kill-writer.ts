import { writeSync } from "node:fs";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { batchOf, partsPerBatch } from "./kill-batch.ts";

/**
 * Writes batch after batch until it is killed, printing the number of each one only after the store has
 * acknowledged it. Arguments: database file, number of the first batch.
 */
const [path, first] = process.argv.slice(2);
if (path === undefined || first === undefined) throw new Error("Needs a file and a number");
const store = SqliteStore.open(path);
for (let batch = Number(first); ; batch++) {
  const receipt = await store.apply(batchOf(batch), {
    who: "writer",
    at: "2026-01-01T00:00:00Z",
    importOf: { fileName: `batch ${batch}`, read: partsPerBatch },
  });
  if (receipt.sequence > 0) writeSync(1, `${batch}\n`);
}
