import { max } from "d3-array";
import { scaleLinear } from "d3-scale";
import type { Mark, Scene } from "./scene.ts";

/** What one candidate makes the boat cost: its own price and the spares kit, in one unit of money. */
export interface CostBar {
  readonly name: string;
  readonly price: number;
  readonly kit: number;
  readonly isCheapest: boolean;
}

const rowHeight = 52;
const barHeight = 20;

/** A bar to each candidate, price and kit end to end, named above it; the cheapest marked in words. */
export function layOutCostBars(
  bars: readonly CostBar[],
  width: number,
  words: string,
  moneyText: (amount: number) => string,
): Scene {
  const longest = max(bars, ({ price, kit }) => price + kit) ?? 1;
  const room = 96;
  const x = scaleLinear()
    .domain([0, longest || 1])
    .range([0, width - room]);
  const marks: Mark[] = [];
  bars.forEach((bar, row) => {
    const y = row * rowHeight;
    const price = x(bar.price);
    const kit = x(bar.kit);
    marks.push(
      {
        kind: "text",
        x: 0,
        y: y + 16,
        text: `${bar.name}${bar.isCheapest ? ", cheapest" : ""}`,
        className: "cost-name",
      },
      { kind: "rect", x: 0, y: y + 22, width: price, height: barHeight, className: "cost-price" },
      { kind: "rect", x: price, y: y + 22, width: kit, height: barHeight, className: "cost-kit" },
      {
        kind: "text",
        x: price + kit + 6,
        y: y + 37,
        text: moneyText(bar.price + bar.kit),
        className: "axis-text",
      },
    );
  });
  return { width, height: bars.length * rowHeight + 4, words, marks };
}
