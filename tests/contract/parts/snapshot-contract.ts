import { describe, expect, test } from "vitest";
import type { Adjacency } from "../../../api/scoring/snapshot/snapshot.ts";
import { mintNodeId } from "../../../graph-schema/index.ts";
import { occasion, smallFleet } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";
import { problemOf } from "./problem-of.ts";

/** Days since 1970-01-01 of a calendar day, by the platform's calendar. */
const day = (year: number, month: number, date: number) => Date.UTC(year, month - 1, date) / 864e5;

export function snapshotContract(open: StoreFactory): void {
  describe("snapshot", () => {
    const filled = async () => {
      const store = await open();
      const { set, ids } = smallFleet();
      await store.apply(set, occasion);
      return { store, ids };
    };
    const lines = ({ start, target }: Adjacency, row: number) =>
      Array.from(target.subarray(start[row], start[row + 1]));

    test("an empty graph gives empty columns of the right lengths", async () => {
      const snapshot = await (await open()).snapshot();
      expect(snapshot.items.id).toStrictEqual([]);
      expect(snapshot.uses.start).toStrictEqual(new Int32Array(1));
      expect(snapshot.uses.quantity).toStrictEqual(new Float64Array(0));
    });

    test("gear, functions and models stand in their columns, unknown ones as NaN and -1", async () => {
      const { store, ids } = await filled();
      const { items, functions, models, vessels, makers, serves } = await store.snapshot();
      const port = items.id.indexOf(ids.port);
      const mystery = items.id.indexOf(ids.unknownGear);
      expect(items.position[port]).toBe("Winch, port");
      expect(vessels.name[items.vessel[port] ?? -1]).toBe("Merle");
      expect(models.designation[items.model[port] ?? -1]).toBe("DW-40");
      expect(items.hoursPerDay[port]).toBe(1.5);
      expect(items.operationsPerDay[port]).toBeNaN();
      expect(items.fittedOnDay[port]).toBe(day(2020, 1, 2));
      expect(items.hoursRun[port]).toBe(120);
      expect(items.model[mystery]).toBe(-1);
      expect(items.fittedOnDay[mystery]).toBeNaN();
      expect(lines(serves, mystery)).toStrictEqual([]);
      expect(lines(serves, port).map((at) => functions.id[at])).toEqual(
        expect.arrayContaining([ids.hoist, ids.bail]),
      );
      const hoist = functions.id.indexOf(ids.hoist);
      const bail = functions.id.indexOf(ids.bail);
      expect([functions.tier[hoist], functions.need[hoist]]).toStrictEqual([2, 2]);
      // Unstated: passage, one needed (graph-schema, RequiredFunction).
      expect([functions.tier[bail], functions.need[bail]]).toStrictEqual([1, 1]);
      const winch = models.id.indexOf(ids.winch);
      expect(makers.name[models.maker[winch] ?? -1]).toBe("Ostrava Deck Works");
    });

    test("parts-list lines carry their evidence in the order of their targets", async () => {
      const { store, ids } = await filled();
      const { models, parts, uses } = await store.snapshot();
      const winch = models.id.indexOf(ids.winch);
      const targets = lines(uses, winch);
      expect(targets).toStrictEqual(targets.toSorted((a, b) => a - b));
      const line = (id: (typeof parts.id)[number]) =>
        (uses.start[winch] ?? 0) + targets.indexOf(parts.id.indexOf(id));
      const pawl = line(ids.pawl);
      const spring = line(ids.spring);
      expect(uses.quantity[pawl]).toBe(4);
      expect(uses.failureEffect[pawl]).toBe(1);
      expect(uses.fittableAtSea[pawl]).toBe(0);
      // A mean of 500 hours between failures is 2 per 1000 hours.
      expect(uses.rate[pawl]).toBe(2);
      expect(uses.rateBasis[pawl]).toBe(1);
      expect(uses.rateSource[pawl]).toBe(1);
      expect(uses.rarity[pawl]).toBe(0);
      expect(uses.rate[spring]).toBe(0.2);
      expect(uses.rateBasis[spring]).toBe(2);
      expect(uses.failureEffect[spring]).toBe(0);
      expect(uses.fittableAtSea[spring]).toBe(1);
      expect(uses.rarity[spring]).toBe(3);
      expect(uses.meanLifeHours[spring]).toBeNaN();
      expect(parts.isSafety[parts.id.indexOf(ids.spring)]).toBe(1);
      expect(parts.massKg[parts.id.indexOf(ids.spring)]).toBeNaN();
      expect(parts.shelfLifeMonths[parts.id.indexOf(ids.newSpring)]).toBe(24);
    });

    test("lots know their vessel through nested lockers, and directly", async () => {
      const { store, ids } = await filled();
      const { lots, lockers, parts, vessels } = await store.snapshot();
      const nested = lots.id.indexOf(ids.tinLot);
      const loose = lots.id.indexOf(ids.looseLot);
      expect(lockers.id[lots.locker[nested] ?? -1]).toBe(ids.tin);
      expect(vessels.id[lots.vessel[nested] ?? -1]).toBe(ids.ketch);
      expect(parts.id[lots.part[nested] ?? -1]).toBe(ids.pawl);
      expect(lots.quantity[nested]).toBe(3);
      expect(lots.expiresDay[nested]).toBe(day(2027, 5, 1));
      expect(lots.madeDay[nested]).toBeNaN();
      expect(lots.condition[nested]).toBe(1);
      expect(lots.locker[loose]).toBe(-1);
      expect(vessels.id[lots.vessel[loose] ?? -1]).toBe(ids.tender);
      expect(lots.condition[loose]).toBe(0);
      const tin = lockers.id.indexOf(ids.tin);
      expect(lockers.id[lockers.within[tin] ?? -1]).toBe(ids.crate);
      expect(vessels.id[lockers.vessel[tin] ?? -1]).toBe(ids.ketch);
      expect(lockers.within[lockers.id.indexOf(ids.forepeak)]).toBe(-1);
      expect(lockers.capacityLitres[lockers.id.indexOf(ids.forepeak)]).toBe(800);
    });

    test("services, offers, alternates, successors, kits and crossings stand in their columns", async () => {
      const { store, ids } = await filled();
      const s = await store.snapshot();
      const part = (id: typeof ids.pawl) => s.parts.id.indexOf(id);
      expect(s.models.id[s.services.model[0] ?? -1]).toBe(ids.winch);
      expect(s.services.intervalMonths[0]).toBe(12);
      expect(s.services.intervalHours[0]).toBeNaN();
      const consumed = lines(s.consumes, 0);
      expect(s.consumes.lossChance[consumed.indexOf(part(ids.grease))]).toBeNaN();
      expect(s.consumes.lossChance[consumed.indexOf(part(ids.spring))]).toBe(0.1);
      expect(lines(s.serviced, s.items.id.indexOf(ids.port))).toStrictEqual([0]);
      expect(s.serviced.lastDoneDay[0]).toBe(day(2025, 12, 31));
      expect(lines(s.offers, 0)).toStrictEqual([part(ids.pawl)]);
      expect(s.offers).toMatchObject({
        supplierCode: ["=BX-1"],
        priceMinor: Float64Array.of(1250),
        currency: ["EUR"],
        packSize: Float64Array.of(Number.NaN),
        leadTimeDays: Float64Array.of(9),
        asOfDay: Float64Array.of(day(2026, 2, 1)),
      });
      expect(s.suppliers).toMatchObject({ port: ["Mindelo"], contact: ["quay 3"], country: [""] });
      expect(s.interchange).toStrictEqual({
        a: Int32Array.of(part(ids.kit)),
        b: Int32Array.of(part(ids.pawl)),
        confidence: Uint8Array.of(2),
        source: ["parts list, 2nd edition"],
      });
      expect(s.supersession).toStrictEqual({
        older: Int32Array.of(part(ids.spring)),
        newer: Int32Array.of(part(ids.newSpring)),
        source: ["maker's bulletin 7"],
      });
      expect(s.contains).toStrictEqual({
        kit: Int32Array.of(part(ids.kit)),
        part: Int32Array.of(part(ids.grease)),
        quantity: Float64Array.of(2),
      });
      expect(s.crossings.departsDay[0]).toBe(day(2026, 12, 1));
      expect(lines(s.sailedBy, 0)).toStrictEqual([s.vessels.id.indexOf(ids.ketch)]);
    });

    test("one vessel's picture holds what belongs to it and nothing else", async () => {
      const { store, ids } = await filled();
      const merle = await store.snapshot(ids.ketch);
      const sorted = (list: readonly string[]) => list.toSorted();
      expect(merle.vessels.id).toStrictEqual([ids.ketch]);
      expect(sorted(merle.items.id)).toStrictEqual(sorted([ids.port, ids.unknownGear]));
      expect(merle.models.id).toStrictEqual([ids.winch]);
      // The kit stands in for the pawl; the grease is in the kit; the new spring replaces the old.
      expect(sorted(merle.parts.id)).toStrictEqual(
        sorted([ids.pawl, ids.spring, ids.newSpring, ids.kit, ids.grease]),
      );
      expect(merle.lots.id).toStrictEqual([ids.tinLot]);
      expect(merle.lots.vessel).toStrictEqual(Int32Array.of(0));
      expect(sorted(merle.lockers.id)).toStrictEqual(sorted([ids.forepeak, ids.crate, ids.tin]));
      expect(merle.suppliers.id).toStrictEqual([ids.supplier]);
      expect(merle.makers.id).toStrictEqual([ids.maker]);
      expect(merle.crossings.id).toStrictEqual([ids.crossing]);
      expect(merle.uses.target).toHaveLength(2);
      const grebe = await store.snapshot(ids.tender);
      expect(grebe.items.id).toStrictEqual([ids.tenderPump]);
      expect(grebe.parts.id).toStrictEqual([ids.impeller]);
      expect(grebe.functions.id).toStrictEqual([]);
      expect(grebe.suppliers.id).toStrictEqual([]);
      expect(grebe.crossings.id).toStrictEqual([]);
      // And the whole again, unharmed by the pictures of parts of it.
      expect((await store.snapshot()).items.id).toHaveLength(3);
    });

    test("the order of writing changes nothing in the picture", async () => {
      const { store } = await filled();
      const first = await store.snapshot();
      const other = await open();
      const { set } = smallFleet();
      const nodes = set.changes.filter(({ kind }) => kind === "create-node").toReversed();
      const links = set.changes.filter(({ kind }) => kind === "create-link").toReversed();
      await other.apply({ changes: [...nodes, ...links] }, occasion);
      expect(await other.snapshot()).toStrictEqual(first);
    });

    test("a vessel that does not exist is refused", async () => {
      const { store, ids } = await filled();
      for (const id of [mintNodeId("Vessel", "ghost"), ids.pawl])
        expect((await problemOf(store.snapshot(id))).code).toBe("not-found");
    });
  });
}
