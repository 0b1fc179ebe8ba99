import type { ProposedChange } from "../../../importers/change-set.ts";
import type { GraphStore, WriteOccasion, WriteReceipt } from "../../store/graph-store.ts";

/** Who writes, and when; the plan itself says what. */
export type Writer = Pick<WriteOccasion, "who" | "at">;

/** One journalled change, or none where everything is so already: `sequence` is null then. */
export async function writeChange(
  store: GraphStore,
  changes: readonly ProposedChange[],
  writer: Writer,
  what: string,
): Promise<{ readonly sequence: number | null; readonly receipt: WriteReceipt }> {
  const receipt = await store.apply({ changes }, { ...writer, what: what.slice(0, 500) });
  return { sequence: receipt.sequence === 0 ? null : receipt.sequence, receipt };
}
