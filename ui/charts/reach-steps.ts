import { max } from "d3-array";
import { scaleBand, scaleLinear } from "d3-scale";
import type { Mark, Scene } from "./scene.ts";

/** What the best `count` suppliers together reach. */
export interface ReachPoint {
  readonly count: number;
  readonly reached: number;
  /** Of that, what stays reached whichever one of them drops out. */
  readonly withoutAnyOne: number;
  /** No choice of as many reaches more; equal to `reached` where that is proven. */
  readonly upperBound: number;
}

export interface ReachInput {
  readonly points: readonly ReachPoint[];
  /** All there is. */
  readonly total: number;
  /** What can be reached at all. */
  readonly coverable: number;
  readonly width: number;
  readonly height: number;
}

const margin = { top: 24, right: 12, bottom: 40, left: 44 } as const;

/**
 * Bars of what the best one, two, three ... suppliers cover, the part that survives the loss of any one of them
 * filled darker, against lines for all there is and all that anyone sells. An open cap stands for an unproven bound.
 */
export function layOutReach({ points, total, coverable, width, height }: ReachInput): Scene {
  const inside = { right: width - margin.right, bottom: height - margin.bottom };
  const x = scaleBand<number>()
    .domain(points.map((point) => point.count))
    .range([margin.left, inside.right])
    .paddingInner(0.35)
    .paddingOuter(0.2);
  const top = max([total, coverable, ...points.map((point) => point.upperBound), 1]) ?? 1;
  const y = scaleLinear().domain([0, top]).range([inside.bottom, margin.top]);
  const marks: Mark[] = [];
  for (const tick of y.ticks(4)) {
    marks.push(
      {
        kind: "line",
        x1: margin.left,
        x2: inside.right,
        y1: y(tick),
        y2: y(tick),
        className: tick === 0 ? "axis-line" : "axis-rule",
      },
      {
        kind: "text",
        x: margin.left - 8,
        y: y(tick) + 5,
        text: String(tick),
        anchor: "end",
        className: "axis-text",
      },
    );
  }
  const bar = (left: number, value: number, className: string): Mark => ({
    kind: "rect",
    x: left,
    y: y(value),
    width: x.bandwidth(),
    height: inside.bottom - y(value),
    className,
  });
  for (const point of points) {
    const left = x(point.count) ?? 0;
    const middle = left + x.bandwidth() / 2;
    if (point.upperBound > point.reached) marks.push(bar(left, point.upperBound, "reach-bound"));
    marks.push(bar(left, point.reached, "reach-bar"));
    if (point.withoutAnyOne > 0) marks.push(bar(left, point.withoutAnyOne, "reach-sure"));
    marks.push(
      {
        kind: "text",
        x: middle,
        y: y(Math.max(point.reached, 0)) - 6,
        text: String(point.reached),
        anchor: "middle",
        className: "reach-text",
      },
      {
        kind: "text",
        x: middle,
        y: inside.bottom + 18,
        text: String(point.count),
        anchor: "middle",
        className: "axis-text",
      },
    );
  }
  const limit = (value: number, text: string, above: boolean): void => {
    marks.push(
      {
        kind: "line",
        x1: margin.left,
        x2: inside.right,
        y1: y(value),
        y2: y(value),
        className: "reach-limit",
      },
      {
        kind: "text",
        x: margin.left + 4,
        y: y(value) + (above ? -6 : 16),
        text,
        className: "reach-limit-text",
      },
    );
  };
  limit(total, `all ${total}`, true);
  if (coverable < total) limit(coverable, `sold at all ${coverable}`, false);
  marks.push({
    kind: "text",
    x: (margin.left + inside.right) / 2,
    y: height - 4,
    text: "suppliers, the best so many together",
    anchor: "middle",
    className: "axis-text",
  });
  return { width, height, words: wordsOf(points, total, coverable), marks };
}

function wordsOf(points: readonly ReachPoint[], total: number, coverable: number): string {
  const steps = points.map(
    ({ count, reached, withoutAnyOne }) =>
      `${count}: ${reached}${withoutAnyOne > 0 ? ` (${withoutAnyOne} of them without any one)` : ""}`,
  );
  return `Fitted items covered whole by the best suppliers together, of ${total}, ${coverable} of which are on sale at all. ${steps.join("; ")}.`;
}
