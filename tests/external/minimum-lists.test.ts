import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { readMinimumList } from "../../api/plans/minimums/read-minimum-list.ts";
import { checkMinimum } from "../../api/scoring/minimums/check-minimum.ts";
import type {
  FittedUnit,
  MinimumRule,
  SpareClass,
} from "../../api/scoring/minimums/minimum-rule.ts";

const rulesOf = (id: string): readonly MinimumRule[] =>
  readMinimumList(
    id,
    readFileSync(
      fileURLToPath(new URL(`../../importers/minimum-lists/${id}.csv`, import.meta.url)),
    ),
  ).rules;

const rule = (rules: readonly MinimumRule[], asks: string): MinimumRule => {
  const found = rules.find(({ words }) => words.includes(asks));
  if (found === undefined) throw new Error(`no rule asks for ${asks}`);
  return found;
};

/** `models` names the model of each unit; every model takes one spare of its own, two of which are fitted. */
function fittedAs(category: string, models: readonly string[], spare: string) {
  const units: FittedUnit[] = models.map((kind, at) => ({
    name: `${category} ${at + 1}`,
    kind,
    kindName: kind,
    category,
    words: `${category} ${kind}`,
  }));
  const spares: SpareClass[] = [...new Set(models)].map((kind) => ({
    name: `${spare} of ${kind}`,
    words: `${spare} ${kind}`,
    aboard: 0,
    notUsable: 0,
    bought: 0,
    fitted: new Map(units.flatMap((unit, at) => (unit.kind === kind ? [[at, 2]] : []))),
  }));
  return { units, spares };
}

describe("Canada, Navigation Safety Regulations 2020 (SOR/2020-216), s. 121(5)", () => {
  const bulbs = rule(rulesOf("canada-sor-2020-216"), "spare bulbs");
  const required = (...models: string[]) => {
    const { units, spares } = fittedAs("searchlight", models, "Bulb");
    return checkMinimum(bulbs, units, spares);
  };

  it.each([
    [["halogen A"], 2],
    [["halogen A", "halogen A"], 2],
    [["halogen A", "halogen B"], 4],
    [["LED C", "halogen A"], 2],
  ] as const)("%j takes %i bulbs", (models, pieces) => {
    expect(required(...models).required).toBe(pieces);
  });

  it("asks nothing of two LED lights, and says why", () => {
    const finding = required("LED C", "LED D");
    expect(finding).toMatchObject({ status: "not applicable", required: 0 });
    expect(finding.leftOut).toHaveLength(2);
    expect(finding.why).toContain("LED");
  });

  it("does not extrapolate beyond the two units the text covers", () => {
    expect(required("halogen A", "halogen A", "halogen A")).toMatchObject({
      status: "to be judged",
      required: 0,
    });
  });

  it("does not let the bulbs of one make stand for another's", () => {
    const { units, spares } = fittedAs("searchlight", ["halogen A", "halogen B"], "Bulb");
    const stocked = spares.map((spare, at) => ({ ...spare, aboard: at === 0 ? 4 : 1 }));
    const finding = checkMinimum(bulbs, units, stocked);
    expect(finding.status).toBe("short");
    expect(finding.shares.map(({ aboard }) => aboard)).toEqual([2, 1]);
  });

  it("counts a bulb that fits both makes once", () => {
    const { units, spares } = fittedAs("searchlight", ["halogen A", "halogen B"], "Bulb");
    const both: SpareClass = {
      name: "Bulb",
      words: "Bulb",
      aboard: 3,
      notUsable: 0,
      bought: 0,
      fitted: new Map([
        [0, 1],
        [1, 1],
      ]),
    };
    expect(checkMinimum(bulbs, units, [...spares, both]).status).toBe("short");
    expect(checkMinimum(bulbs, units, [...spares, { ...both, bought: 1 }]).status).toBe(
      "met with kit",
    );
  });
});

describe("Canada, SOR/2020-216, s. 109", () => {
  it("takes a spare compass only if it interchanges with the fitted one", () => {
    const compass = rule(rulesOf("canada-sor-2020-216"), "spare compass");
    const { units, spares } = fittedAs("steering compass", ["K 5"], "Compass");
    const other: SpareClass = {
      name: "Compass of another make",
      words: "Compass",
      aboard: 1,
      notUsable: 0,
      bought: 0,
      fitted: new Map(),
    };
    const finding = checkMinimum(compass, units, [...spares, other]);
    expect(finding).toMatchObject({ status: "short", required: 1, unlisted: [1] });
    const held = spares.map((spare) => ({ ...spare, aboard: 1 }));
    expect(checkMinimum(compass, units, held).status).toBe("met");
  });
});

describe("France, arrêté of 23-11-1987, art. 221-V/28 ter", () => {
  const rules = rulesOf("france-221-v-28-ter");

  it.each([
    ["joining link", "anchor chain", 2, 2],
    ["anchor shackle", "anchor", 3, 3],
    ["turnbuckles", "mast", 2, 4],
  ] as const)("%s: each %s counts", (asks, category, fitted, pieces) => {
    const { units, spares } = fittedAs(
      category,
      Array.from({ length: fitted }, () => "M"),
      "x",
    );
    expect(checkMinimum(rule(rules, asks), units, spares).required).toBe(pieces);
  });

  it("asks one mooring line of any ship, whatever is fitted", () => {
    expect(checkMinimum(rule(rules, "mooring line"), [], [])).toMatchObject({
      required: 1,
      status: "short",
    });
  });

  it("asks a board of each kind for each hatch", () => {
    const { units, spares } = fittedAs("hatch", ["H", "H"], "Hatch board");
    const two = spares.flatMap((spare) => [spare, { ...spare, name: "Upper board" }]);
    const finding = checkMinimum(rule(rules, "board of each kind"), units, two);
    expect(finding.shares.map(({ required }) => required)).toEqual([2, 2]);
  });

  it("asks 15 per cent of wedges over those fitted, rounded up", () => {
    const { units, spares } = fittedAs("hatch", ["H"], "Wedge");
    const wedges = (pieces: number) =>
      checkMinimum(
        rule(rules, "Wedges"),
        units,
        spares.map((spare) => ({ ...spare, fitted: new Map([[0, pieces]]) })),
      ).required;
    // Common practice, no source: a part of a wedge is a wedge.
    expect([wedges(20), wedges(21), wedges(40)]).toEqual([3, 4, 6]);
  });
});
