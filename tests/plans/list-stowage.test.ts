import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listStowage } from "../../api/plans/list-stowage.ts";
import { stowPieces } from "../../api/plans/stock/stow-pieces.ts";
import { type SmallApp, smallApp } from "../http/small-app.ts";

const today = "2026-11-25";
const who = { who: "tests", at: "2026-11-25T12:00:00Z" };

describe("what lies in a place", () => {
  let fleet: SmallApp;
  beforeAll(async () => {
    fleet = await smallApp(true);
    const stow = (quantity: number, place: string, expires?: string) =>
      stowPieces(
        fleet.store,
        {
          part: "BP12-S",
          quantity,
          place,
          newPlace: true,
          ...(expires === undefined ? {} : { expires }),
        },
        today,
        who,
      );
    await stow(2, "Engine room > Bin 1", "2027-06-30");
    await stow(3, "Engine room > Bin 1", "2026-12-01");
    await stow(4, "Engine room > Bin 1 > Box");
  });
  afterAll(() => fleet.store.close());

  it("is listed first to use first, what keeps last, with what lies deeper", async () => {
    const answer = await listStowage(fleet.store, { place: "Engine room > Bin 1" }, today);
    expect(answer.lots.map(({ lastDay, pieces }) => [lastDay, pieces])).toEqual([
      ["2026-12-01", 3],
      ["2027-06-30", 2],
      [null, 4],
    ]);
    expect(answer).toMatchObject({ total: 3, pieces: 9, attention: 1 });
    expect(answer.lots.map(({ state }) => state)).toEqual(["falls due", "usable", "usable"]);
  });

  it("comes a page at a time, and the pages together are the whole", async () => {
    const whole = await listStowage(fleet.store, {}, today);
    const pages = [];
    for (let offset = 0; offset < whole.total; offset += 2)
      pages.push(...(await listStowage(fleet.store, { offset, limit: 2 }, today)).lots);
    expect(whole.total).toBeGreaterThan(3);
    expect(pages).toEqual(whole.lots);
  });

  it("is counted for every place of the ship, the outer holding what the inner do", async () => {
    const { places, total } = await listStowage(fleet.store, {}, today);
    const of = (name: string) => places.find((place) => place.name === name);
    expect(places[0]).toMatchObject({ depth: 0, lots: total });
    expect(of("Box")).toMatchObject({ lots: 1, attention: 0, depth: 3 });
    expect(of("Bin 1")).toMatchObject({ lots: 3, attention: 1, depth: 2 });
    expect(of("Bin 1")?.path).toMatch(/ › Engine room › Bin 1$/);
  });

  it("refuses a place that is not there", async () => {
    await expect(listStowage(fleet.store, { place: "Attic" }, today)).rejects.toMatchObject({
      code: "not-found",
    });
  });
});
