import { type KeyboardEvent, type RefObject, useEffect, useRef } from "react";
import { flushSync } from "react-dom";

const steps: Readonly<Record<string, number>> = {
  ArrowDown: 1,
  ArrowUp: -1,
  PageDown: 10,
  PageUp: -10,
};

/**
 * Arrow and page keys walk from row to row of a long table, beyond the rows that are on the page. `rows` is what the table
 * shows: a row walked to that has not been fetched yet gets the focus when it comes.
 */
export function useRowWalk(
  box: RefObject<HTMLElement | null>,
  count: number,
  rowHeight: number,
  rows: unknown,
): (event: KeyboardEvent<HTMLElement>) => void {
  /** The row walked to while it has not come: the box holds the focus for it. */
  const awaited = useRef<number>(undefined);
  const focusRow = (at: number): boolean => {
    const handle = box.current?.querySelector<HTMLElement>(`tr[data-row="${at}"] :is(a, button)`);
    handle?.focus({ preventScroll: true });
    return handle !== null && handle !== undefined;
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: looks again whenever rows have come
  useEffect(() => {
    if (awaited.current === undefined) return;
    if (document.activeElement !== box.current || focusRow(awaited.current))
      awaited.current = undefined;
  }, [rows]);
  return (event) => {
    const step = steps[event.key];
    const row = (event.target as HTMLElement).closest<HTMLElement>("tr[data-row]");
    const from = row === null ? awaited.current : Number(row.dataset["row"]);
    const element = box.current;
    if (step === undefined || from === undefined || element === null) return;
    event.preventDefault();
    const to = Math.min(count - 1, Math.max(0, from + step));
    const head = element.querySelector("thead")?.clientHeight ?? 0;
    const y = to * rowHeight;
    if (y < element.scrollTop) element.scrollTop = y;
    else if (y + rowHeight + head > element.scrollTop + element.clientHeight)
      element.scrollTop = y + rowHeight + head - element.clientHeight;
    // Drawn before the next press can come: a row that leaves the page takes the focus, and with it the presses, along.
    flushSync(() => element.dispatchEvent(new Event("scroll")));
    awaited.current = undefined;
    if (focusRow(to)) return;
    element.focus({ preventScroll: true });
    awaited.current = to;
  };
}
