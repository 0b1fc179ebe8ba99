import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readinessAnswer } from "../../api/contract/readiness.contract.ts";
import { listDue } from "../../api/plans/list-due.ts";
import { measureCommonality } from "../../api/plans/measure-commonality.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { planKit } from "../../api/plans/plan-kit.ts";
import { rankSuppliers } from "../../api/plans/rank-suppliers.ts";
import { stowPieces } from "../../api/plans/stock/stow-pieces.ts";
import { surveyReadiness } from "../../api/plans/survey-readiness.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { smallApp } from "../http/small-app.ts";

const today = "2026-11-25";
let store: GraphStore;
beforeAll(async () => {
  store = await openStore({ db: ":memory:", env: {} });
  const folder = join(import.meta.dirname, "../../importers/demo");
  await openDemo(store, folder, { who: "test", at: "2026-11-25T00:00:00.000Z" });
});
afterAll(() => store.close());

describe("readiness", () => {
  it("says of every vessel what the plans it sums up say", async () => {
    const answer = readinessAnswer.parse(await surveyReadiness(store, {}, today));
    expect(answer.vessels).toHaveLength(3);
    for (const one of answer.vessels) {
      const vessel = one.vessel.id;
      const kit = await planKit(store, { vessel }, today);
      expect(one.toBuy.pieces).toBe(kit.total.buyPieces);
      expect(one.tiers.map(({ withAboard }) => withAboard)).toEqual(
        kit.tiers.map(({ withAboard }) => withAboard),
      );
      expect(one.ready).toBe(kit.total.buyPieces === 0 && kit.status === "optimal");
      expect(one.evidence.without).toBe(kit.withoutEvidence.length);
      const due = await listDue(store, { vessel }, today);
      expect(due.until).toBe(one.crossing.usableUntil);
      const states = (state: string) => due.lots.filter((lot) => lot.state === state).length;
      expect(one.stock).toMatchObject({
        outOfDate: states("out of date"),
        dateUnknown: states("date unknown"),
        notServiceable: states("not serviceable"),
        fallsDue: states("falls due"),
      });
      expect(one.services.due + one.services.onPassage).toBe(due.services.length);
      expect(one.services.shortOfParts).toBe(due.services.filter(({ ready }) => !ready).length);
      const suppliers = await rankSuppliers(store, { vessel });
      expect(one.singleSource.parts).toBe(suppliers.singleSource.length);
      expect(one.singleSource.stopping).toBe(
        suppliers.singleSource.filter(({ itemsStopped }) => itemsStopped > 0).length,
      );
    }
    const { opportunities } = await measureCommonality(store, {});
    expect(answer.standardise?.words).toBe(opportunities[0]?.words);
    expect(answer.cautions.length).toBeGreaterThan(3);
  });

  it("lists what needs attention by its pressure, each with where to look and how many", async () => {
    const { vessels } = await surveyReadiness(store, { vessel: "Ysolvane" }, today);
    const list = vessels[0]?.attention ?? [];
    expect(list.length).toBeGreaterThan(4);
    const order = ["now", "before leaving", "to know"];
    const weights = list.map(({ weight }) => order.indexOf(weight));
    expect(weights).toEqual(weights.toSorted((a, b) => a - b));
    for (const { count, words, follow } of list) {
      expect(count).toBeGreaterThan(0);
      expect(words).toContain(String(count));
      expect(follow.command).toContain('--vessel "Ysolvane"');
      expect(follow.query["vessel"]).toBe(vessels[0]?.vessel.id);
    }
  });

  it("of a small vessel counts what was counted by hand, and is ready once the shelf is full", async () => {
    const small = await smallApp(true);
    const before = (await surveyReadiness(small.store, {}, "2026-11-20")).vessels[0];
    // In the list: one lot of impellers out of date since 2020; three parts, all from one supplier, all stopping.
    expect(before).toMatchObject({
      items: 3,
      ready: false,
      crossing: {
        name: "Westward",
        departs: "2026-12-05",
        daysAway: 15,
        usableUntil: "2026-12-25",
      },
      stock: { outOfDate: 1, dateUnknown: 0, notServiceable: 0, fallsDue: 0 },
      services: { due: 0, onPassage: 0 },
      singleSource: { parts: 3, stopping: 3, unsoldStopping: 0 },
    });
    for (const part of ["0040-07", "=BP12-A", "BP12-S"]) {
      await stowPieces(
        small.store,
        { part, quantity: 20, place: "Engine room", expires: "2031-01-01" },
        "2026-11-20",
        { who: "test", at: "2026-11-20T12:00:00.000Z" },
      );
    }
    const after = (await surveyReadiness(small.store, {}, "2026-11-20")).vessels[0];
    expect(after).toMatchObject({ ready: true, toBuy: { pieces: 0 } });
    expect(after?.attention.map(({ kind }) => kind)).not.toContain("short");
    await small.store.close();
  });

  it("of an empty graph says so, and of an unknown vessel that there is none", async () => {
    const empty = await openStore({ db: ":memory:", env: {} });
    expect(await surveyReadiness(empty, {}, today)).toMatchObject({
      vessels: [],
      standardise: null,
    });
    await empty.close();
    await expect(surveyReadiness(store, { vessel: "Nobody" }, today)).rejects.toMatchObject({
      code: "not-found",
    });
  });
});
