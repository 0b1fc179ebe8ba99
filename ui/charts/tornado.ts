import { max } from "d3-array";
import { scaleLinear } from "d3-scale";
import type { Mark, Scene } from "./scene.ts";

/** What halving and doubling one rate does to what is weighed, as changes from what it is now. */
export interface Swing {
  readonly name: string;
  readonly isAssumed: boolean;
  readonly halved: number;
  readonly doubled: number;
}

export interface TornadoInput {
  readonly swings: readonly Swing[];
  readonly width: number;
  readonly words: string;
  /** Writes a change with its sign and unit: "+46 EUR". */
  readonly changeText: (change: number) => string;
}

const rowHeight = 40;
const top = 26;
const barHeight = 14;

const clip = (text: string, letters: number) =>
  text.length > letters ? `${text.slice(0, letters - 1)}…` : text;

/**
 * Bars to both sides of what the kit costs now, the widest swing first: filled for a doubled rate, open for a halved one.
 * Names stand above their bars, so that they need no margin and nothing is cut on a phone.
 */
export function layOutTornado({ swings, width, words, changeText }: TornadoInput): Scene {
  const widest = max(swings, ({ halved, doubled }) =>
    Math.max(Math.abs(halved), Math.abs(doubled)),
  );
  const labels = Math.min(110, width / 4);
  const x = scaleLinear()
    .domain([-(widest ?? 1) || -1, (widest ?? 1) || 1])
    .range([labels, width - labels]);
  const height = top + swings.length * rowHeight + 8;
  const middle = x(0);
  const marks: Mark[] = [
    { kind: "line", x1: middle, x2: middle, y1: top - 6, y2: height - 4, className: "axis-line" },
    {
      kind: "text",
      x: middle,
      y: 14,
      text: "as it is now",
      anchor: "middle",
      className: "axis-text",
    },
  ];
  swings.forEach((swing, row) => {
    const y = top + row * rowHeight;
    marks.push({
      kind: "text",
      x: 2,
      y: y + 12,
      text: clip(`${swing.name}${swing.isAssumed ? " (assumed)" : ""}`, Math.floor(width / 7)),
      className: swing.isAssumed ? "tornado-name tornado-assumed" : "tornado-name",
    });
    for (const [change, className] of [
      [swing.doubled, "tornado-doubled"],
      [swing.halved, "tornado-halved"],
    ] as const) {
      if (change === 0) continue;
      const end = x(change);
      marks.push(
        {
          kind: "rect",
          x: Math.min(middle, end),
          y: y + 18,
          width: Math.max(1, Math.abs(end - middle)),
          height: barHeight,
          className,
        },
        {
          kind: "text",
          x: end + (change > 0 ? 5 : -5),
          y: y + 30,
          text: changeText(change),
          anchor: change > 0 ? "start" : "end",
          className: "axis-text",
        },
      );
    }
  });
  return { width, height, words, marks };
}
