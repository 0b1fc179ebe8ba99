import type { ChangeSet } from "../../importers/change-set.ts";
import { Draft } from "./small-fleet.ts";

export const partsPerBatch = 150;

/** One write of the kill test: a maker and its parts. Whole or not at all, so that a half one can be told. */
export function batchOf(batch: number): ChangeSet {
  const draft = new Draft();
  const maker = draft.node("Maker", { name: `Maker ${batch}` }, `Maker ${batch}`);
  for (let at = 0; at < partsPerBatch; at++) {
    const partNumber = `${batch}-${at}`;
    const part = draft.node("Part", { partNumber, description: "O-ring" }, "m", partNumber);
    draft.link("MADE_BY", part, maker);
  }
  return draft.set;
}
