import type { ImaginedAnswer, ImaginedRequest } from "../contract/what-if.contract.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { imaginedStore } from "./what-if/imagined-store.ts";

/**
 * What a what-if imagines, in words with the names of what it is about, before any plan is asked.
 *
 * @param today ISO day, the caller's clock; new gear counts as fitted then, which the words do not tell
 * Errors: those of `imaginedStore`.
 */
export async function describeImagined(
  store: GraphStore,
  { whatIf }: ImaginedRequest,
  today: string,
): Promise<ImaginedAnswer> {
  const { said, notices } = await imaginedStore(store, whatIf, undefined, today);
  return { changes: [...said], notices: [...notices] };
}
