import { expect, test } from "vitest";
import { partClasses } from "../../api/scoring/classes/part-classes.ts";
import {
  type KitSettings,
  tierLogSufficiency,
  vesselKit,
} from "../../api/scoring/provision/vessel-kit.ts";
import { seededStream } from "../../api/scoring/simulation/xoshiro.ts";
import type { Snapshot } from "../../api/scoring/snapshot/snapshot.ts";
import { vesselPicture } from "../../api/scoring/snapshot/vessel-picture.ts";
import { SqliteStore } from "../../api/store/sqlite/sqlite-store.ts";
import { GraphSketch } from "../tools/graph-sketch.ts";
import { type RandomFleet, randomFleet } from "../tools/random-fleet.ts";

const settings: KitSettings = {
  targets: [0.97, 0.9, 0.8],
  objective: "cost",
  rule: "kit",
  robbing: true,
  rates: {},
};

/** A random fleet with pairs of every confidence between any of its parts, prices on some; every other one has numbers replaced. */
async function pairedFleet(seed: number): Promise<{ fleet: RandomFleet; snapshot: Snapshot }> {
  const fleet = randomFleet(seed, seed % 2 === 0);
  const store = SqliteStore.open(":memory:");
  await fleet.sketch.into(store);
  const parts = [...(await store.knownGraph()).nodes("Part").values()].map(({ id }) => id);
  const random = seededStream(seed, 1);
  const below = (count: number): number => Math.floor(random() * count);
  const more = new GraphSketch();
  const supplier = more.supplier("Nordquay Stores");
  for (const part of parts) {
    if (random() < 0.6)
      more.link("OFFERS", supplier, part, { priceMinor: 100 + below(5000), currency: "EUR" });
  }
  const paired = new Set<string>();
  for (let pair = 0; pair < parts.length; pair++) {
    const [from, to] = [parts[below(parts.length)], parts[below(parts.length)]];
    const name = [from, to].sort().join();
    if (from === undefined || to === undefined || from === to || paired.has(name)) continue;
    paired.add(name);
    const confidence = ["confirmed", "likely", "unproven", undefined][below(4)];
    more.link("INTERCHANGES_WITH", from, to, confidence === undefined ? {} : { confidence });
  }
  await more.into(store);
  const snapshot = await store.snapshot();
  await store.close();
  return { fleet, snapshot };
}

/** Pieces of each part the kit leaves aboard: usable ones where they are, bought ones as the part that is priced. */
function piecesByPart(kit: ReturnType<typeof vesselKit>): Float64Array {
  const pieces = Float64Array.from(kit.stock.usable);
  for (const { demand, buy } of kit.rows) {
    const priced = kit.prices.price(demand.partClass).part;
    const part = priced >= 0 ? priced : (kit.classes.members[demand.partClass]?.[0] ?? 0);
    pieces[part] = (pieces[part] ?? 0) + buy;
  }
  return pieces;
}

test("counted without pooling through unconfirmed pairs, the safety tier never falls below its target", async () => {
  let counted = 0;
  let apart = 0;
  let mergedElsewhere = 0;
  for (let seed = 1; seed <= 120; seed++) {
    const { fleet, snapshot } = await pairedFleet(seed);
    const passage = {
      departsDay: 20_800,
      daysExpected: fleet.days,
      daysLongest: fleet.days,
      marginDays: 0,
    };
    const kit = solve(snapshot, passage, false);
    const strict = solve(snapshot, passage, true);
    if (kit === undefined || strict === undefined) continue;
    apart += kit.classes.safetyApart.length;
    mergedElsewhere += strict.classes.members.length - kit.classes.members.length;
    if (kit.answer.tiers[0].status === "infeasible") continue;
    const pieces = piecesByPart(kit);
    const sure = tierLogSufficiency(strict, 0, (row) =>
      (strict.classes.members[strict.rows[row]?.demand.partClass ?? -1] ?? []).reduce(
        (sum, part) => sum + (pieces[part] ?? 0),
        0,
      ),
    );
    if (strict.groups.some(({ part }) => part.tier === 0)) counted++;
    expect(Math.exp(sure), `seed ${seed}`).toBeGreaterThanOrEqual(0.97 - 1e-9);
  }
  expect(counted).toBeGreaterThan(30);
  expect(apart).toBeGreaterThan(30);
  expect(mergedElsewhere).toBeGreaterThan(30);
}, 240_000);

/** The kit; undefined where the random replacements make a circle with the random pairs, which is refused. */
function solve(
  snapshot: Snapshot,
  passage: Parameters<typeof vesselKit>[2],
  confirmedOnly: boolean,
): ReturnType<typeof vesselKit> | undefined {
  try {
    return vesselKit(snapshot, 0, passage, { ...settings, confirmedOnly });
  } catch (error) {
    if (error instanceof Error && /superseded by/.test(error.message)) return undefined;
    throw error;
  }
}

test("one vessel's picture merges its parts as the whole graph does for that vessel", async () => {
  for (let seed = 1; seed <= 60; seed++) {
    const { snapshot } = await pairedFleet(seed);
    const own = vesselPicture(snapshot, 0);
    const whole = partClasses(snapshot, { vessel: 0 });
    const pictured = partClasses(own);
    own.parts.id.forEach((id, part) => {
      const names = (list: readonly number[], of: Snapshot): string[] =>
        list
          .map((one) => String(of.parts.id[one]))
          .filter((one) => own.parts.id.some((p) => p === one))
          .sort();
      const there = snapshot.parts.id.indexOf(id);
      expect(
        names(pictured.members[pictured.classOf[part] ?? -1] ?? [], own),
        `seed ${seed}`,
      ).toEqual(names(whole.members[whole.classOf[there] ?? -1] ?? [], snapshot));
    });
  }
});
