import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { layOutLikeness } from "../../ui/charts/likeness-map.ts";
import { layOutPartsMatrix } from "../../ui/charts/parts-matrix.ts";
import { layOutReach } from "../../ui/charts/reach-steps.ts";
import { layOutWeb } from "../../ui/charts/supply-web.ts";
import { layOutTornado } from "../../ui/charts/tornado.ts";
import { layOutTradeOff } from "../../ui/charts/trade-off-curve.ts";
import { layOutVoyage } from "../../ui/charts/voyage-spans.ts";
import { temporaryFolder } from "../cli/run-command.ts";
import { curve, matrix, reach } from "./made-by-hand.ts";
import { normalisedSvg, pictureFault } from "./picture-file.ts";
import { svgText } from "./svg-text.tsx";

const cells = { sharedOnly: false, rowHeight: 20, columnWidth: 10 };

const node = (id: string) => ({ id, name: id });

/** Every picture, drawn from a small input made by hand. What they mean is asserted in the tests beside this one. */
const pictures: readonly (readonly [name: string, svg: () => string])[] = [
  ["parts-matrix", () => svgText(layOutPartsMatrix(matrix, cells).body)],
  ["parts-matrix-head", () => svgText(layOutPartsMatrix(matrix, cells).head)],
  [
    "parts-matrix-shared",
    () => svgText(layOutPartsMatrix(matrix, { ...cells, sharedOnly: true }).body),
  ],
  ["trade-off-curve", () => svgText(layOutTradeOff(curve).scene)],
  ["reach-steps", () => svgText(layOutReach(reach))],
  [
    "tornado",
    () =>
      svgText(
        layOutTornado({
          swings: [
            { name: "Impeller", isAssumed: true, halved: -50, doubled: 100 },
            { name: "Seal", isAssumed: false, halved: 0, doubled: 25 },
          ],
          width: 600,
          words: "Impeller matters most.",
          changeText: (change) => `${change} EUR`,
        }),
      ),
  ],
  [
    "voyage-spans",
    () =>
      svgText(
        layOutVoyage({
          ports: [
            { name: "Mindelo", note: "sails 10 Jan 2027", leg: "2 to 3 days", days: 3 },
            { name: "Praia", note: "sails 15 Jan 2027", leg: "15 to 20 days", days: 20 },
            { name: "Bridgetown", note: "arrival", leg: "", days: 0 },
          ],
          spans: [
            { from: 0, to: 2, pieces: 120 },
            { from: 0, to: 1, pieces: 12 },
            { from: 1, to: 2, pieces: 15 },
          ],
          width: 400,
          words: "120 of 132 pieces must last to Bridgetown.",
        }),
      ),
  ],
  [
    "likeness-map",
    () =>
      svgText(
        layOutLikeness(
          ["a", "b", "c"].map((id) => ({ id, name: id, category: "winch", items: 1 })),
          [
            { a: "a", b: "b", jaccard: 0.7, shared: 7 },
            { a: "b", b: "c", jaccard: 0.6, shared: 6 },
            { a: "a", b: "c", jaccard: 0.5, shared: 5 },
          ],
          400,
          "Three alike.",
        ),
      ),
  ],
  [
    "supply-web",
    () =>
      svgText(
        layOutWeb(
          {
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
            words: "One part, two sellers.",
          },
          900,
        ),
      ),
  ],
];

describe("pictures", () => {
  it.each(pictures)("%s is drawn as on file", (name, svg) => {
    expect(pictureFault(name, svg())).toBeUndefined();
  });
});

describe("a picture on file", () => {
  const folder = temporaryFolder();
  afterAll(folder.clear);
  const at = (update: boolean) => ({ folder: folder.path, update });
  const file = (name: string) => join(folder.path, name);

  it("is never made or changed unasked; what differs is written beside it and named", () => {
    expect(pictureFault("one", "<svg><g></g></svg>", at(false))).toContain("no such picture");
    expect(existsSync(file("one.svg"))).toBe(false);
    expect(existsSync(file("one-changed.svg"))).toBe(true);
    expect(pictureFault("one", "<svg><g></g></svg>", at(true))).toBeUndefined();
    expect(existsSync(file("one-changed.svg"))).toBe(false);
    const fault = pictureFault("one", '<svg><g class="x"></g></svg>', at(false));
    expect(fault).toContain('line 2: "<g>" became "<g class="x">"');
    expect(readFileSync(file("one.svg"), "utf8")).toBe("<svg>\n<g>\n</g>\n</svg>\n");
    expect(readFileSync(file("one-changed.svg"), "utf8")).toContain('class="x"');
  });

  it("is the same whatever the spaces between elements and beyond a tenth of a unit", () => {
    writeFileSync(file("two.svg"), normalisedSvg('<svg> <line x1="10.04"/>\n<g></g></svg>'));
    expect(pictureFault("two", '<svg><line x1="9.96"/><g></g></svg>', at(false))).toBeUndefined();
    expect(pictureFault("two", '<svg><line x1="10.2"/><g></g></svg>', at(false))).toBeDefined();
    expect(normalisedSvg('<text x="1.234" aria-label="0.987">0.987</text>')).toBe(
      '<text x="1.2" aria-label="0.987">0.987</text>\n',
    );
  });
});
