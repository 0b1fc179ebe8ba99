import { extent } from "d3-array";
import { scaleLinear } from "d3-scale";
import { curveStepAfter, line } from "d3-shape";
import { depthOf } from "./depth.ts";
import type { Mark, Scene } from "./scene.ts";

/** A kit proven least for its own sufficiency: weight minimised (cents, g, ml or pieces), chance of not running short. */
export interface CurvePoint {
  readonly cost: number;
  readonly sufficiency: number;
  readonly pieces: number;
}

export interface TradeOffInput {
  readonly points: readonly CurvePoint[];
  readonly chosen: { readonly cost: number; readonly sufficiency: number };
  readonly target: number;
  readonly width: number;
  readonly height: number;
  /** Writes an amount of what is minimised, with its unit. */
  readonly amountText: (amount: number) => string;
  /** Writes a whole number of units, without naming the unit. */
  readonly tickText: (units: number) => string;
  /** One whole unit of what is minimised, in the points' own units. */
  readonly amountScale: number;
  readonly sufficiencyText: (p: number) => string;
  readonly name: string;
}

export interface TradeOffLayout {
  readonly scene: Scene;
  readonly placed: readonly { readonly x: number; readonly y: number; readonly index: number }[];
  readonly chosenIndex: number;
}

/** Round values first, so that the ones between give way where there is little room. */
const ladder = [
  0, 0.9, 0.99, 0.999, 0.9999, 0.99999, 0.5, 0.95, 0.995, 0.9995, 0.8, 0.98, 0.998, 0.99995, 0.7,
  0.6,
] as const;
const margin = { top: 28, right: 20, bottom: 36, left: 52 } as const;
const labelGap = 20;
/** How many tenfold falls of the chance of running short are drawn above the kit and its target. */
const roomAbove = 2;
/** Room for the chosen kit's label, in pixels. */
const labelWidth = 150;

/**
 * What more sureness costs: a staircase over the least kits, failure on a logarithmic axis (each
 * step up a tenth of the chance of running short), the target as a line, the chosen kit as a lozenge.
 */
export function layOutTradeOff(input: TradeOffInput): TradeOffLayout {
  const { chosen, target, width, height } = input;
  const top = Math.max(depthOf(target), depthOf(chosen.sufficiency)) + roomAbove;
  const points = input.points.filter((point) => depthOf(point.sufficiency) <= top);
  const inside = { right: width - margin.right, bottom: height - margin.bottom };
  const depths = [...points.map((point) => depthOf(point.sufficiency)), depthOf(target)];
  const [low = 0, high = 1] = extent([...depths, depthOf(chosen.sufficiency)]);
  const dearest = Math.max(chosen.cost, ...points.map((point) => point.cost), 1);
  const x = scaleLinear().domain([0, dearest]).range([margin.left, inside.right]);
  const y = scaleLinear()
    .domain([low - 0.14 * (high - low || 1), high + 0.04 * (high - low || 1)])
    .range([inside.bottom, margin.top]);

  const marks: Mark[] = [];
  const taken: number[] = [];
  for (const rung of ladder) {
    const at = y(depthOf(rung));
    if (
      at < margin.top - 1 ||
      at > inside.bottom + 1 ||
      taken.some((other) => Math.abs(other - at) < labelGap)
    )
      continue;
    taken.push(at);
    marks.push(
      { kind: "line", x1: margin.left, x2: inside.right, y1: at, y2: at, className: "axis-rule" },
      {
        kind: "text",
        x: margin.left - 8,
        y: at + 5,
        text: String(rung),
        anchor: "end",
        className: "axis-text",
      },
    );
  }
  marks.push({
    kind: "line",
    x1: margin.left,
    x2: inside.right,
    y1: inside.bottom,
    y2: inside.bottom,
    className: "axis-line",
  });
  const whole = scaleLinear()
    .domain([0, dearest / input.amountScale])
    .range(x.range());
  for (const tick of whole.ticks(Math.max(2, Math.floor(width / 130)))) {
    marks.push(
      {
        kind: "line",
        x1: whole(tick),
        x2: whole(tick),
        y1: inside.bottom,
        y2: inside.bottom + 4,
        className: "axis-line",
      },
      {
        kind: "text",
        x: whole(tick),
        y: inside.bottom + 20,
        text: input.tickText(tick),
        anchor: "middle",
        className: "axis-text",
      },
    );
  }
  const placed = points.map((point, index) => ({
    x: x(point.cost),
    y: y(depthOf(point.sufficiency)),
    index,
  }));
  const stairs = line<{ x: number; y: number }>()
    .x((p) => Math.round(p.x * 10) / 10)
    .y((p) => Math.round(p.y * 10) / 10)
    .curve(curveStepAfter);
  if (placed.length > 0) {
    const last = placed[placed.length - 1];
    const path = stairs(last === undefined ? placed : [...placed, { x: inside.right, y: last.y }]);
    if (path !== null) marks.push({ kind: "path", d: path, className: "curve-line" });
  }
  const dotRadius = placed.length > 50 ? 1.25 : 2.5;
  for (const point of placed)
    marks.push({
      kind: "circle",
      cx: point.x,
      cy: point.y,
      r: dotRadius,
      className: "curve-point",
    });

  const targetY = y(depthOf(target));
  const cx = x(chosen.cost);
  const cy = y(depthOf(chosen.sufficiency));
  // The curve climbs to the right: room is above left of a point, and below right of it.
  const isAboveLeft = cx - margin.left > labelWidth;
  marks.push(
    {
      kind: "line",
      x1: margin.left,
      x2: inside.right,
      y1: targetY,
      y2: targetY,
      className: "curve-target",
    },
    {
      kind: "text",
      x: inside.right,
      y: isAboveLeft ? targetY + 16 : targetY - 6,
      text: `target ${input.sufficiencyText(target)}`,
      anchor: "end",
      className: "curve-target-text",
    },
    {
      kind: "path",
      d: `M${cx.toFixed(1)} ${(cy - 8).toFixed(1)}l8 8l-8 8l-8 -8z`,
      className: "curve-chosen",
    },
    {
      kind: "text",
      x: isAboveLeft ? cx - 10 : cx + 10,
      y: isAboveLeft ? cy - 10 : Math.max(cy + 20, targetY + 18),
      text: `${input.sufficiencyText(chosen.sufficiency)} for ${input.amountText(chosen.cost)}`,
      anchor: isAboveLeft ? "end" : "start",
      className: "curve-chosen-text",
    },
  );
  let chosenIndex = -1;
  let nearest = Number.POSITIVE_INFINITY;
  points.forEach((point, index) => {
    const away = Math.abs(point.cost - chosen.cost);
    if (away < nearest) {
      nearest = away;
      chosenIndex = index;
    }
  });
  const surer =
    input.points.find((point) => depthOf(point.sufficiency) >= depthOf(chosen.sufficiency) + 1) ??
    input.points[input.points.length - 1];
  const words =
    `${input.name}: the kit reaches ${input.sufficiencyText(chosen.sufficiency)} for ` +
    `${input.amountText(chosen.cost)}, target ${input.sufficiencyText(target)}` +
    (surer === undefined || surer.cost <= chosen.cost
      ? "."
      : `; ${input.sufficiencyText(surer.sufficiency)} would take ${input.amountText(surer.cost)}.`);
  return { scene: { width, height, words, marks }, placed, chosenIndex };
}

/** The roundest probability in (above, upTo]: fewest decimals first. Choosing a kit on the curve sets this as its target. */
export function roundestTarget(above: number, upTo: number): number {
  for (let decimals = 2; decimals <= 9; decimals++) {
    const factor = 10 ** decimals;
    const rounded = Math.round(upTo * factor) / factor;
    const candidate = rounded <= upTo ? rounded : Math.floor(upTo * factor) / factor;
    if (candidate <= upTo && candidate > above && candidate < 1 && candidate > 0) return candidate;
  }
  return Math.min(upTo, 1 - 1e-9);
}
