import { max } from "d3-array";
import { scaleSqrt } from "d3-scale";
import type { Mark, Scene } from "./scene.ts";

/** A port of the voyage, from the first to the last. */
export interface VoyagePort {
  readonly name: string;
  /** Under the name: "sails 10 Jan 2027", "arrival". */
  readonly note: string;
  /** Days of the leg that starts here, in words; "" at the last port. */
  readonly leg: string;
  /** Longest days of that leg; 0 at the last port. */
  readonly days: number;
}

/** Pieces that are aboard from one port on and are meant to last to another. */
export interface VoyageSpan {
  /** Places in the list of ports. */
  readonly from: number;
  readonly to: number;
  readonly pieces: number;
}

export interface VoyageInput {
  readonly ports: readonly VoyagePort[];
  readonly spans: readonly VoyageSpan[];
  readonly width: number;
  readonly words: string;
}

const top = 26;
const routeX = 12;
const legHeight = { least: 66, most: 150, perDay: 5 } as const;
const column = { first: 136, pitch: 74, bar: 26 } as const;

/** Columns so that spans of one never overlap: the first free one takes each, those that start first before others. */
function columnsOf(spans: readonly VoyageSpan[]): readonly number[] {
  const ends: number[] = [];
  return spans.map(({ from, to }) => {
    const free = ends.findIndex((end) => end <= from);
    const at = free < 0 ? ends.length : free;
    ends[at] = to;
    return at;
  });
}

/**
 * The voyage from top to bottom: ports on a line, a leg the longer the more days, and beside it a bar to each lot of
 * pieces from the port where they come aboard to the port they are meant to last to, its width by the square root of
 * their number. Wider than asked where there are many lots.
 */
export function layOutVoyage({ ports, spans, width, words }: VoyageInput): Scene {
  const y: number[] = [];
  let at = top;
  for (const { days } of ports) {
    y.push(at);
    at += Math.min(legHeight.most, legHeight.least + days * legHeight.perDay);
  }
  const last = y.at(-1) ?? top;
  const sorted = [...spans].sort((a, b) => a.from - b.from || b.to - a.to);
  const columns = columnsOf(sorted);
  const wide = scaleSqrt()
    .domain([0, max(sorted, ({ pieces }) => pieces) ?? 1])
    .range([0, column.bar]);
  const right = Math.max(width, column.first + ((max(columns) ?? 0) + 1) * column.pitch);
  const marks: Mark[] = ports.map((_, port) => ({
    kind: "line",
    x1: routeX,
    x2: right,
    y1: y[port] ?? 0,
    y2: y[port] ?? 0,
    className: "axis-rule",
  }));
  marks.push({
    kind: "line",
    x1: routeX,
    x2: routeX,
    y1: top,
    y2: last,
    className: "voyage-route",
  });
  sorted.forEach(({ from, to, pieces }, index) => {
    const left = column.first + (columns[index] ?? 0) * column.pitch;
    const start = y[from] ?? 0;
    const bar = Math.max(3, wide(pieces));
    marks.push(
      {
        kind: "rect",
        x: left,
        y: start + 3,
        width: bar,
        height: Math.max(1, (y[to] ?? 0) - start - 6),
        className: from === 0 ? "voyage-carried" : "voyage-topped",
      },
      {
        kind: "text",
        x: left + bar + 5,
        y: start + 21,
        text: String(pieces),
        className: "voyage-count",
      },
      {
        kind: "text",
        x: left + bar + 5,
        y: start + 38,
        text: pieces === 1 ? "piece" : "pieces",
        className: "axis-text",
      },
    );
  });
  ports.forEach(({ name, note, leg }, port) => {
    const level = y[port] ?? 0;
    marks.push(
      { kind: "circle", cx: routeX, cy: level, r: 6, className: "voyage-port" },
      { kind: "text", x: routeX + 14, y: level - 5, text: name, className: "voyage-name" },
      { kind: "text", x: routeX + 14, y: level + 16, text: note, className: "axis-text" },
    );
    if (leg !== "")
      marks.push({
        kind: "text",
        x: routeX + 14,
        y: (level + (y[port + 1] ?? level)) / 2 + 16,
        text: leg,
        className: "axis-text",
      });
  });
  return { width: right, height: last + 24, words, marks };
}
