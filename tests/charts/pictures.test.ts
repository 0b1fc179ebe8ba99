import { describe, expect, it } from "vitest";
import { categorySign } from "../../ui/charts/category-sign.ts";
import { embed, layOutLikeness, likeGroups } from "../../ui/charts/likeness-map.ts";
import { byNeighbours, layOutWeb } from "../../ui/charts/supply-web.ts";
import { layOutTornado } from "../../ui/charts/tornado.ts";
import { attribute, linesOfClass, svgText } from "./svg-text.tsx";

describe("the tornado of rates", () => {
  const input = {
    swings: [
      { name: "Impeller", isAssumed: true, halved: -50, doubled: 100 },
      { name: "Seal", isAssumed: false, halved: 0, doubled: 25 },
    ],
    width: 600,
    words: "Impeller matters most.",
    changeText: (change: number) => `${change} EUR`,
  };
  const svg = svgText(layOutTornado(input));

  it("draws a bar to each side as long as its change, none where nothing changes", () => {
    const doubled = linesOfClass(svg, "tornado-doubled");
    const halved = linesOfClass(svg, "tornado-halved");
    expect(doubled).toHaveLength(2);
    expect(halved).toHaveLength(1);
    const [long = "", short = ""] = doubled;
    expect(attribute(long, "width") / attribute(short, "width")).toBeCloseTo(4);
    expect(attribute(halved[0] ?? "", "width") * 2).toBeCloseTo(attribute(long, "width"));
    const middle = attribute(linesOfClass(svg, "axis-line")[0] ?? "", "x1");
    expect(attribute(long, "x")).toBeCloseTo(middle);
    expect(attribute(halved[0] ?? "", "x")).toBeLessThan(middle);
  });

  it("marks assumed rates by words, not by look alone", () => {
    expect(svg).toContain("Impeller (assumed)");
    expect(svg).not.toContain("Seal (assumed)");
  });

  it("is drawn empty without any rate", () => {
    expect(layOutTornado({ ...input, swings: [] }).marks).toHaveLength(2);
  });
});

describe("the map of likeness", () => {
  const pair = (a: string, b: string, jaccard: number) => ({ a, b, jaccard, shared: 1 });
  const model = (id: string, category = "winch") => ({ id, name: id, category, items: 1 });

  it("groups what is linked, however far round, and leaves out what shares nothing", () => {
    const models = ["a", "b", "c", "d", "e", "f"].map((id) => model(id));
    expect(
      likeGroups(models, [pair("a", "b", 0.5), pair("c", "b", 0.2), pair("e", "f", 1)]),
    ).toEqual([
      ["a", "b", "c"],
      ["e", "f"],
    ]);
  });

  it("recovers a triangle of sides 0.3, 0.4 and 0.5 exactly", () => {
    const { points, stress } = embed(
      ["a", "b", "c"],
      [pair("a", "b", 0.7), pair("b", "c", 0.6), pair("a", "c", 0.5)],
      2000,
    );
    expect(stress).toBeLessThan(1e-6);
    const [a, b, c] = points;
    if (a === undefined || b === undefined || c === undefined) throw new Error("three points");
    expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeCloseTo(0.3, 5);
    expect(Math.hypot(b.x - c.x, b.y - c.y)).toBeCloseTo(0.4, 5);
    expect(Math.hypot(a.x - c.x, a.y - c.y)).toBeCloseTo(0.5, 5);
  });

  it("never grows worse with more rounds (de Leeuw's majorisation descends)", () => {
    const ids = ["a", "b", "c", "d", "e", "f", "g"];
    const pairs = [
      pair("a", "b", 0.9),
      pair("b", "c", 0.4),
      pair("d", "e", 0.7),
      pair("f", "g", 0.1),
    ];
    let before = Number.POSITIVE_INFINITY;
    for (const rounds of [1, 2, 5, 20, 100]) {
      const { stress } = embed(ids, pairs, rounds);
      expect(stress).toBeLessThanOrEqual(before + 1e-12);
      before = stress;
    }
  });

  it("keeps every model of every group within the picture", () => {
    const models = Array.from({ length: 30 }, (_, index) => model(`m${index}`, `c${index % 9}`));
    const pairs = models.slice(1).map(({ id }, index) => pair(`m${index - (index % 4)}`, id, 0.3));
    const real = pairs.filter(({ a, b }) => a !== b);
    for (const width of [280, 1000]) {
      const scene = layOutLikeness(models, real, width, "words");
      for (const mark of scene.marks) {
        if (mark.kind !== "circle") continue;
        expect(mark.cx - mark.r).toBeGreaterThanOrEqual(0);
        expect(mark.cx + mark.r).toBeLessThanOrEqual(width);
        expect(mark.cy + mark.r).toBeLessThanOrEqual(scene.height);
      }
    }
  });

  it("gives 24 categories 24 different signs", () => {
    const signs = Array.from({ length: 24 }, (_, place) => {
      const { shape, colour } = categorySign(place);
      return `${shape} ${colour}`;
    });
    expect(new Set(signs).size).toBe(24);
  });
});

describe("the web of one selection", () => {
  const node = (id: string) => ({ id, name: id });
  const web = {
    gear: ["g1", "g2"].map(node),
    parts: ["p1", "p2", "p3"].map(node),
    suppliers: ["s1", "s2"].map(node),
    takes: [
      ["g1", "p3"],
      ["g2", "p1"],
    ],
    sold: [
      ["p1", "s1"],
      ["p3", "s2"],
      ["p3", "s1"],
    ],
    picked: "p3",
    words: "words",
  } as const;

  it("draws a line for each thing taken and each thing sold, those of the selection stronger", () => {
    const svg = svgText(layOutWeb(web, 900));
    expect(linesOfClass(svg, "web-line")).toHaveLength(5);
    expect(linesOfClass(svg, "web-near")).toHaveLength(3);
    expect(linesOfClass(svg, "web-picked")).toHaveLength(1);
  });

  it("puts what hangs together side by side, so that no line of a ladder crosses", () => {
    const places = new Map([
      ["g1", 0],
      ["g2", 1],
    ]);
    expect(byNeighbours(web.parts, web.takes, places).map(({ id }) => id)).toEqual([
      "p3",
      "p1",
      "p2",
    ]);
  });
});
