import type { KnownGraph } from "../../importers/index.ts";
import type { GraphStore } from "../store/graph-store.ts";

/**
 * Works something out from the graph as an importer sees it. A graph behind a wire has at hand only what was asked for
 * before, so the work is done again until it asks for nothing new; its last answer, or its last failure, counts.
 */
export async function askKnownGraph<T>(
  store: GraphStore,
  ask: (known: KnownGraph) => T | Promise<T>,
): Promise<T> {
  const known = await store.knownGraph();
  for (;;) {
    let answer: { readonly value: T } | { readonly failure: unknown };
    try {
      answer = { value: await ask(known) };
    } catch (failure) {
      answer = { failure };
    }
    if (await known.catchUp?.()) continue;
    if ("failure" in answer) throw answer.failure;
    return answer.value;
  }
}
