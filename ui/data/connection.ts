import { useSyncExternalStore } from "react";

/** Whether the program answers, and if not, from when the data on the page is (milliseconds since 1970). */
export interface Connection {
  readonly isAway: boolean;
  readonly keptAt: number | undefined;
}

let now: Connection = { isAway: false, keptAt: undefined };
const listeners = new Set<() => void>();

const become = (next: Connection) => {
  if (next.isAway === now.isAway && next.keptAt === now.keptAt) return;
  now = next;
  for (const listener of listeners) listener();
};

/** The program has answered. */
export const sawAnswer = (): void => become({ isAway: false, keptAt: undefined });

/** The program did not answer; what is shown instead was kept at the moment given, if anything was. */
export const sawSilence = (keptAt?: number): void =>
  become({ isAway: true, keptAt: keptAt ?? now.keptAt });

const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
};

export const useConnection = (): Connection =>
  useSyncExternalStore(
    subscribe,
    () => now,
    () => now,
  );
