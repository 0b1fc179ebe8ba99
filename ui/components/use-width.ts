import { useEffect, useState } from "react";

/** The width a picture has, in whole pixels between two bounds, followed as the page changes; `frame` is its box's ref. */
export function useWidth(
  least: number,
  most: number,
): { readonly frame: (box: HTMLDivElement | null) => void; readonly width: number } {
  const [box, setBox] = useState<HTMLDivElement | null>(null);
  const [width, setWidth] = useState(Math.min(most, Math.max(least, 340)));
  useEffect(() => {
    if (box === null) return;
    const watch = new ResizeObserver(([entry]) => {
      if (entry !== undefined)
        setWidth(Math.min(most, Math.max(least, Math.floor(entry.contentRect.width))));
    });
    watch.observe(box);
    return () => watch.disconnect();
  }, [box, least, most]);
  return { frame: setBox, width };
}
