/** Longest stretch of work between two turns of the event loop, in milliseconds. */
const longestStretchMs = 12;

/**
 * Returns what long work calls between its steps: once the last turn is long enough ago, other work gets its own.
 * `before` is told each time that happens. Stops the caller with the signal's reason.
 */
export function turnTaker(signal?: AbortSignal): (before?: () => void) => Promise<void> {
  let since = performance.now();
  return async (before) => {
    if (performance.now() - since < longestStretchMs) return;
    before?.();
    await new Promise((resolve) => setImmediate(resolve));
    signal?.throwIfAborted();
    since = performance.now();
  };
}
