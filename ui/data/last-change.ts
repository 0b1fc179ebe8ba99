import { useSyncExternalStore } from "react";
import { askEverythingAgain } from "./use-answer.ts";

/** What was last changed from this screen, and the number by which it can be undone. */
export interface LastChange {
  readonly sentence: string;
  readonly sequence: number | null;
  readonly notes: readonly string[];
}

let last: LastChange | undefined;
const listeners = new Set<() => void>();

const become = (next: LastChange | undefined) => {
  last = next;
  for (const listener of listeners) listener();
};

/** Tells of a change: the bar offers to undo it, and every answer on the page is asked for anew. */
export function tellChange(change: {
  readonly sentence: string;
  readonly sequence: number | null;
  readonly notes?: readonly string[];
}): void {
  become({ sentence: change.sentence, sequence: change.sequence, notes: change.notes ?? [] });
  askEverythingAgain();
}

export const forgetChange = (): void => become(undefined);

const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
};

export const useLastChange = (): LastChange | undefined =>
  useSyncExternalStore(
    subscribe,
    () => last,
    () => undefined,
  );
