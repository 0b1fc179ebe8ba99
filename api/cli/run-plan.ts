import type { GraphStore } from "../store/graph-store.ts";
import type { GlobalOptions, OpenGraph } from "./open-graph.ts";
import { sayAside, sayDocument } from "./say.ts";
import { type Progress, showProgress } from "./show-progress.ts";

/**
 * Opens the graph, asks a plan, prints its document or shows it to a person, closes the graph. What the plan tells of its
 * progress is shown while a person waits.
 */
export async function runPlan<A>(
  options: GlobalOptions,
  open: (options: GlobalOptions) => Promise<OpenGraph>,
  ask: (store: GraphStore, progress: Progress) => Promise<A>,
  show: (answer: A) => void,
): Promise<A> {
  const graph = await open(options);
  const { progress, finish } = showProgress();
  try {
    if (graph.notice !== undefined) sayAside(graph.notice);
    const answer = await ask(graph.store, progress).finally(finish);
    if (options.json === true) sayDocument(answer);
    else show(answer);
    return answer;
  } finally {
    await graph.close();
  }
}

/** Who is written in the journal for what is done at the command line, and when. */
export const commandWriter = (): { readonly who: string; readonly at: string } => ({
  who: "command line",
  at: new Date().toISOString(),
});
