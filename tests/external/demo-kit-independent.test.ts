import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { KitAnswer } from "../../api/contract/kit.contract.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import type { NodeId } from "../../graph-schema/index.ts";
import { exceeds } from "./independent-chance.ts";
import { figure, type RawGraph, rawGraph, word } from "./independent-graph.ts";
import { type IndependentKit, type IndependentLine, independentKit } from "./independent-kit.ts";
import {
  insideKit,
  kitsHolding,
  leastSale,
  type SoldLine,
  type SoldThing,
  thingsFor,
} from "./independent-sale.ts";
import { departureIntoAnExpiry, shaken } from "./independent-shake.ts";
import { chanceOfTree } from "./independent-trees.ts";

/**
 * The kit of the demo crossing against a second computation written from the methods alone: it reads the store's
 * raw records, shares no code with the program's scoring, and its least costs come from the HiGHS solver.
 */
const folder = join(import.meta.dirname, "../../importers/demo");
const vessels = ["Ysolvane", "Quorrelind", "Umberwhist"] as const;
const tierNames = ["safety", "passage", "comfort"] as const;
/** Probabilities agree to this; both sides' renewal figures are numerical. */
const close = 1e-6;

const occasion = { who: "test", at: "2026-11-25T12:00:00.000Z" };
const store = SqliteStore.open(":memory:");
const shakenStore = SqliteStore.open(":memory:");

beforeAll(async () => {
  await openDemo(store, folder, occasion);
  await openDemo(shakenStore, folder, occasion);
  await shakenStore.apply(shaken(await shakenStore.knownGraph(), 7), occasion);
});
afterAll(async () => {
  await store.close();
  await shakenStore.close();
});

interface Pair {
  readonly line: KitAnswer["lines"][number];
  /** `usable` counts what the answer opens aboard as moved from the box to its contents. */
  readonly mine: IndependentLine;
  readonly price: number;
}

/** Lines that stand together by supersession. */
const trees = (pairs: readonly Pair[]): readonly (readonly Pair[])[] => [
  ...Map.groupBy(pairs, ({ mine }) => mine.tree).values(),
];

type Priced = Pick<Pair, "mine" | "price">;

const treeChance = <P extends Priced>(tree: readonly P[], pieces: (one: P) => number): number =>
  chanceOfTree(
    tree.map(({ mine }) => ({
      masses: mine.masses,
      newer: tree.findIndex((other) => other.mine.parts.join() === mine.newer?.join()),
    })),
    tree.map((one) => one.mine.credit + pieces(one)),
  );

/** All ways of buying up to a dozen pieces of each part of a tree that is on sale, as one part sold in lumps. */
function everyWay(tree: readonly Priced[]) {
  const ways: { cost: number; log: number }[] = [];
  const visit = (buys: readonly number[]): void => {
    const next = tree[buys.length];
    if (next !== undefined) {
      for (let x = 0; x <= (next.mine.buyable ? 12 : 0); x++) visit([...buys, x]);
      return;
    }
    const cost = tree.reduce((sum, { price }, at) => sum + price * (buys[at] ?? 0), 0);
    const chance = treeChance(tree, (one) => one.mine.usable + (buys[tree.indexOf(one)] ?? 0));
    ways.push({ cost, log: Math.log(Math.min(1, chance)) });
  };
  visit([]);
  ways.sort((a, b) => a.cost - b.cost || b.log - a.log);
  const kept: typeof ways = [];
  for (const way of ways) {
    if (way.log > (kept.at(-1)?.log ?? Number.NEGATIVE_INFINITY) + 1e-12) kept.push(way);
  }
  return {
    logCdf: Float64Array.from(kept, ({ log }) => log),
    stepCost: Float64Array.from(kept, ({ cost }) => cost),
    unitCost: 0,
    tier: 0 as const,
  };
}

const cases = (["the demo", "the demo, shaken"] as const).flatMap((scene) =>
  vessels.map((name) => ({ scene, name })),
);

describe.each(cases)(
  "the kit of $scene for $name is right by an independent computation",
  ({ scene, name }) => {
    let answer: KitAnswer;
    let own: IndependentKit;
    let pairs: readonly Pair[];
    let sold: ReturnType<typeof soldLines>;

    beforeAll(async () => {
      const read = scene === "the demo" ? store : shakenStore;
      const known = await read.knownGraph();
      const graph = rawGraph(known);
      const vessel = graph.all("Vessel").find((node) => word(node, "name") === name);
      const [crossing] = graph.all("Crossing");
      if (vessel === undefined || crossing === undefined)
        throw new Error("The demo lacks its scene.");
      const days = figure(crossing, "daysLongest") ?? 0;
      const planned = word(crossing, "departs") ?? "";
      const recompute = (departs: string): IndependentKit =>
        independentKit(graph, vessel.id, { departs, days }, "EUR");
      const asked = new Set(recompute(planned).lines.flatMap(({ parts }) => parts));
      const departs =
        scene === "the demo"
          ? planned
          : departureIntoAnExpiry(graph, vessel.id, asked, planned, days);
      answer = await planKit(
        read,
        scene === "the demo" ? { vessel: name } : { vessel: name, departs },
        "2026-11-25",
      );
      own = recompute(departs);
      pairs = answer.lines.map((line) => {
        const mine = own.lines.find(({ parts }) => parts.some((part) => part === line.part.id));
        if (mine === undefined) throw new Error(`Only the program asks for ${line.partNumber}.`);
        return { line, mine, price: mine.price ?? own.standIn };
      });
      const opened = answer.purchases.filter(({ kind }) => kind === "service kit aboard");
      pairs = pairs.map((pair) => {
        const isOf = (id: string): boolean => pair.mine.parts.some((part) => part === id);
        const moved = opened.reduce((sum, { part, units, contents }) => {
          const gained = contents.filter((c) => isOf(c.part.id)).reduce((n, c) => n + c.pieces, 0);
          return sum + gained - (isOf(part.id) ? units : 0);
        }, 0);
        return moved === 0
          ? pair
          : { ...pair, mine: { ...pair.mine, usable: pair.mine.usable + moved } };
      });
      sold = soldLines(graph, own);
    });

    it("asks for the same parts, each in the same tier with the same credit, stock and price", () => {
      expect(answer.lines.length).toBe(own.lines.length);
      expect(new Set(pairs.map(({ mine }) => mine)).size).toBe(own.lines.length);
      expect(answer.currency).toBe("EUR");
      for (const { line, mine, price } of pairs) {
        expect(
          {
            tier: line.tier,
            credit: line.credit,
            aboard: line.aboard,
            price: line.unitPrice?.minor,
            assumed: line.priceAssumed,
          },
          line.partNumber,
        ).toEqual({
          tier: mine.tier,
          credit: mine.credit,
          aboard: mine.usable,
          price,
          assumed: mine.price === undefined,
        });
      }
    });

    it("has lines in which interchange merges parts, and an unproven pair that it leaves apart", () => {
      // Quorrelind has both makes of pawl spring; the other two have an engine's and a generator's oil filter in one.
      expect(own.lines.some(({ parts, mean }) => parts.length > 1 && mean > 0)).toBe(true);
      const merged = answer.lines.filter(({ alternates }) => alternates.length > 0);
      expect(merged.length).toBe(own.lines.filter(({ parts }) => parts.length > 1).length);
    });

    it("expects the same demand and the same chances of running short, to 1e-6", () => {
      for (const { line, mine } of pairs) {
        const { credit, usable } = mine;
        const tree = pairs.filter((other) => other.mine.tree === mine.tree);
        // Shown values carry six significant digits, hence the second term.
        const near = (shown: number, exact: number, what: string): void => {
          expect(
            Math.abs(shown - exact),
            `${line.partNumber} ${what} ${shown} ${exact}`,
          ).toBeLessThan(close + 5e-6 * Math.abs(exact));
        };
        near(line.meanDemand, mine.mean, "mean");
        if (tree.length > 1) {
          expect(line.chain).toBeDefined();
          near(line.shortWithNone, 1 - treeChance(tree, () => 0), "none");
          near(line.shortWithAboard, 1 - treeChance(tree, (one) => one.mine.usable), "aboard");
          near(
            line.shortWithKit,
            1 - treeChance(tree, (one) => one.mine.usable + one.line.buy),
            "kit",
          );
          continue;
        }
        near(line.shortWithNone, exceeds(mine.masses, credit), "none");
        near(line.shortWithAboard, exceeds(mine.masses, credit + usable), "aboard");
        near(line.shortWithKit, exceeds(mine.masses, credit + usable + line.buy), "kit");
      }
    });

    it("shows the same risks that no spare can mend", () => {
      const sorted = (list: readonly { readonly id: string; readonly chance: number }[]) =>
        [...list].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : a.chance - b.chance));
      const theirs = sorted(answer.unsparable.map(({ part, chance }) => ({ id: part.id, chance })));
      const mine = sorted(own.unsparable.map(({ part, chance }) => ({ id: part, chance })));
      expect(theirs.map(({ id }) => id)).toEqual(mine.map(({ id }) => id));
      theirs.forEach(({ id, chance }, k) => {
        expect(Math.abs(chance - (mine[k]?.chance ?? Number.NaN)), id).toBeLessThan(close);
      });
    });

    it("reaches each tier's target, and shows each tier's chances, to 1e-6", () => {
      for (const tier of answer.tiers) {
        const members = pairs.filter(({ mine }) => mine.tier === tier.tier);
        const product = (pieces: (pair: (typeof pairs)[number]) => number): number =>
          trees(members).reduce((p, tree) => {
            const [only] = tree;
            return tree.length === 1 && only !== undefined
              ? p * (1 - exceeds(only.mine.masses, only.mine.credit + pieces(only)))
              : p * treeChance(tree, pieces);
          }, 1);
        const withKit = product(({ line, mine }) => mine.usable + line.buy);
        expect(withKit, tier.tier).toBeGreaterThan(tier.target - close);
        expect(tier.withKit, tier.tier).toBeGreaterThanOrEqual(tier.target);
        expect(Math.abs(tier.withKit - withKit), tier.tier).toBeLessThan(close);
        const withAboard = product(({ mine }) => mine.usable);
        expect(Math.abs(tier.withAboard - withAboard), tier.tier).toBeLessThan(close);
        const withNone = product(() => 0);
        expect(Math.abs(tier.withNone - withNone), tier.tier).toBeLessThan(close);
      }
      expect(answer.tiers.map(({ target }) => target)).toEqual([0.99, 0.95, 0.8]);
    });

    it("costs in all what HiGHS proves least on the plain model of packs, least orders and service kits", async () => {
      const paid = answer.purchases.reduce((sum, { cost }) => sum + cost.minor, 0);
      expect(paid).toBe(answer.total.cost.minor);
      const theirs = await leastSale(sold.lines, sold.things, targets);
      expect(theirs.isOptimal).toBe(true);
      // Its row tolerance may let a kit through a hair short; its bound then belongs to that easier problem.
      expect(theirs.bound).toBeLessThanOrEqual(paid + 1e-3);
      expect(paid).toBe(theirs.cost);
      expect(answer.total.lowerBound).toBe(paid);
    }, 120_000);
  },
);

const targets = [0.99, 0.95, 0.8];

/** The plain model's lines and what is for sale, from the recomputed demand and the raw offers. */
function soldLines(graph: RawGraph, own: IndependentKit) {
  const trees = [...Map.groupBy(own.lines, ({ tree }) => tree).values()];
  const lineOf = new Map<NodeId, number>();
  const lines = trees.map((tree, at): SoldLine => {
    const tier = tierNames.indexOf(tree[0]?.tier ?? "comfort");
    const [only] = tree;
    if (tree.length > 1 || only === undefined) {
      const pairs = tree.map((mine) => ({ mine, price: mine.price ?? own.standIn }));
      const { logCdf, stepCost } = everyWay(pairs);
      return { tier, logs: [...logCdf], must: 0, has: 0, stepCost };
    }
    for (const part of only.parts) lineOf.set(part, at);
    const log = (s: number): number => Math.log1p(-exceeds(only.masses, only.credit + s));
    let must = 0;
    while (Math.exp(log(must)) < (targets[tier] ?? 1)) must++;
    const logs = [log(must)];
    for (let s = must + 1; exceeds(only.masses, only.credit + s - 1) > 1e-11; s++)
      logs.push(log(s));
    return { tier, logs, must, has: only.usable };
  });
  const things: SoldThing[] = [];
  const linesIn = (contents: ReadonlyMap<NodeId, number>): ReadonlyMap<number, number> => {
    const found = new Map<number, number>();
    for (const [part, pieces] of contents) {
      const line = lineOf.get(part);
      if (line !== undefined) found.set(line, (found.get(line) ?? 0) + pieces);
    }
    return found;
  };
  for (const line of own.lines.filter(({ parts }) => lineOf.has(parts[0] ?? ("" as NodeId)))) {
    const at = lineOf.get(line.parts[0] ?? ("" as NodeId)) ?? -1;
    const offers = line.parts.flatMap((part) => thingsFor(graph, part, "EUR", new Map([[at, 1]])));
    if (offers.length > 0) things.push(...offers);
    else things.push({ cost: own.standIn, gives: new Map([[at, 1]]), least: 1, most: 60 });
  }
  for (const kit of kitsHolding(graph, lineOf.keys())) {
    const gives = linesIn(insideKit(graph, kit, own.isAsked));
    if (gives.size === 0) continue;
    things.push(...thingsFor(graph, kit, "EUR", gives));
    const aboard = own.usable.get(kit) ?? 0;
    const itself = lineOf.get(kit);
    if (aboard > 0 && itself !== undefined) {
      const opened = new Map(gives).set(itself, (gives.get(itself) ?? 0) - 1);
      things.push({ cost: 0, gives: opened, least: 1, most: aboard });
    }
  }
  return { lines, things };
}
