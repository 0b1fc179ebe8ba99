import { join } from "node:path";
import type { SampleAnswer } from "../contract/sample.contract.ts";
import { Problem } from "../errors/problem.ts";
import type { GraphStore, WriteOccasion } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { openDemo } from "./open-demo.ts";
import { packageRoot } from "./package-root.ts";
import { plural } from "./words.ts";

/**
 * Fills an empty graph with the invented fleet, file by file, as a person would have imported it; each file can be undone.
 * Errors: `store-occupied` where the graph holds parts or vessels: samples and a boat's own gear are never mixed.
 */
export async function takeSample(
  store: GraphStore,
  occasion: WriteOccasion,
): Promise<SampleAnswer> {
  const parts = await store.count("Part");
  const vessels = await store.count("Vessel");
  if (parts + vessels > 0)
    throw new Problem(
      "store-occupied",
      `The invented fleet is for looking round in an empty program; this one holds ${plural(vessels, "vessel")} and ${plural(parts, "part")}. Start another with \`sparewright --demo serve\` to look round beside your own.`,
    );
  const answers = await openDemo(store, join(packageRoot, "importers/demo"), occasion);
  const files = answers.map(({ file, rows }) => ({
    name: file.name,
    read: rows.read,
    accepted: rows.accepted,
  }));
  return {
    sentence: `The invented fleet is here, from ${plural(files.length, "list")}. Nothing of it is real; undo its lists under Import before your own gear comes in.`,
    files,
    cautions: [...cautions],
  };
}
