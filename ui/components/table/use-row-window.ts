import { type RefObject, useEffect, useLayoutEffect, useState } from "react";
import { flushSync } from "react-dom";
import { type RowWindow, rowWindow } from "./row-window.ts";

/** More rows than this are drawn only where they are seen. */
export const longTable = 200;
/** Most rows a printer is given. */
const longestPaper = 5_000;

/** 36 px a row under a mouse, 44 px under a thumb, in proportion to the reader's own type size. */
export const rowHeightNow = (): number => {
  const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
  return Math.round((window.matchMedia("(pointer: coarse)").matches ? 2.75 : 2.25) * rem);
};

/** The window of a scrolled box, moved as it scrolls; all rows while the page is being printed. */
export function useRowWindow(
  box: RefObject<HTMLElement | null>,
  count: number,
  rowHeight: number,
): RowWindow {
  const isLong = count > longTable;
  const [shown, setShown] = useState<RowWindow>({ first: 0, end: 60 });
  const [isPrinting, setPrinting] = useState(false);
  useLayoutEffect(() => {
    const element = box.current;
    if (!isLong || element === null) return;
    const look = () => {
      const next = rowWindow(count, rowHeight, element.scrollTop, element.clientHeight);
      setShown((now) => (now.first === next.first && now.end === next.end ? now : next));
    };
    look();
    element.addEventListener("scroll", look, { passive: true });
    const watch = new ResizeObserver(look);
    watch.observe(element);
    return () => {
      element.removeEventListener("scroll", look);
      watch.disconnect();
    };
  }, [box, count, rowHeight, isLong]);
  useEffect(() => {
    if (!isLong) return;
    const before = () => flushSync(() => setPrinting(true));
    const after = () => setPrinting(false);
    window.addEventListener("beforeprint", before);
    window.addEventListener("afterprint", after);
    return () => {
      window.removeEventListener("beforeprint", before);
      window.removeEventListener("afterprint", after);
    };
  }, [isLong]);
  if (!isLong) return { first: 0, end: count };
  if (isPrinting) return { first: 0, end: Math.min(count, longestPaper) };
  return { first: Math.min(shown.first, count), end: Math.min(shown.end, count) };
}
