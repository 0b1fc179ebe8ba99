import { describe, expect, it } from "vitest";
import { layOutVoyage, type VoyageSpan } from "../../ui/charts/voyage-spans.ts";

const ports = [
  { name: "Mindelo", note: "sails 10 Jan 2027", leg: "2 to 3 days", days: 3 },
  { name: "Praia", note: "sails 15 Jan 2027", leg: "15 to 20 days", days: 20 },
  { name: "Bridgetown", note: "arrival", leg: "", days: 0 },
];
const draw = (spans: readonly VoyageSpan[], width = 400) =>
  layOutVoyage({ ports, spans, width, words: "Most must last." });
const bars = (spans: readonly VoyageSpan[]) =>
  draw(spans).marks.flatMap((mark) => (mark.kind === "rect" ? [mark] : []));

describe("the picture of how far pieces must last", () => {
  it("draws each lot from the port it comes aboard to the port it must last to", () => {
    const dots = draw([]).marks.flatMap((mark) => (mark.kind === "circle" ? [mark.cy] : []));
    const [whole, short, topped] = bars([
      { from: 0, to: 2, pieces: 100 },
      { from: 0, to: 1, pieces: 25 },
      { from: 1, to: 2, pieces: 4 },
    ]);
    expect(dots).toHaveLength(3);
    for (const [bar, from, to] of [
      [whole, 0, 2],
      [short, 0, 1],
      [topped, 1, 2],
    ] as const) {
      expect(bar?.y).toBeCloseTo((dots[from] ?? 0) + 3);
      expect((bar?.y ?? 0) + (bar?.height ?? 0)).toBeCloseTo((dots[to] ?? 0) - 3);
    }
    expect(whole?.className).toBe("voyage-carried");
    expect(topped?.className).toBe("voyage-topped");
    // A quarter of the pieces is half as wide.
    expect((short?.width ?? 0) / (whole?.width ?? 1)).toBeCloseTo(0.5);
  });

  it("lets no two lots lie over each other, and grows wider where they do not fit", () => {
    const spans = [
      { from: 0, to: 1, pieces: 9 },
      { from: 0, to: 2, pieces: 9 },
      { from: 1, to: 2, pieces: 9 },
    ];
    const drawn = bars(spans);
    for (const [at, a] of drawn.entries())
      for (const b of drawn.slice(at + 1)) {
        const besides = a.x + a.width <= b.x || b.x + b.width <= a.x;
        const apart = a.y + a.height <= b.y || b.y + b.height <= a.y;
        expect(besides || apart).toBe(true);
      }
    expect(new Set(drawn.map(({ x }) => x)).size).toBe(2);
    expect(draw(spans, 200).width).toBeGreaterThan(200);
    expect(draw(spans, 800).width).toBe(800);
  });

  it("names every port, leg and number, and holds nothing where there is no lot", () => {
    const said = draw([{ from: 0, to: 2, pieces: 1 }]).marks.flatMap((mark) =>
      mark.kind === "text" ? [mark.text] : [],
    );
    expect(said).toEqual(
      expect.arrayContaining(["Mindelo", "Praia", "Bridgetown", "2 to 3 days", "1", "piece"]),
    );
    expect(bars([])).toEqual([]);
  });
});
