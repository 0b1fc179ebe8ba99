/** The rows of a long list that need to stand on the page. */
export interface RowWindow {
  readonly first: number;
  /** One past the last. */
  readonly end: number;
}

/** Rows kept on the page above and below what is seen, so that a quick turn of the wheel shows no gap. */
const spare = 12;
/** The window moves in steps of this many rows: fewer redraws, same picture. */
const step = 6;

/** Which of `count` rows of one height to draw for a box scrolled to `top`; O(1). */
export function rowWindow(
  count: number,
  rowHeight: number,
  top: number,
  boxHeight: number,
): RowWindow {
  const seen = Math.floor(Math.max(0, top) / rowHeight);
  const first = Math.max(0, Math.floor((seen - spare) / step) * step);
  const end = Math.min(count, first + Math.ceil(boxHeight / rowHeight) + 2 * spare + step);
  return { first: Math.min(first, Math.max(0, count - 1)), end };
}
