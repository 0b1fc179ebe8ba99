import request from "supertest";
import { afterAll, beforeAll, expect, it } from "vitest";
import {
  dueAnswer,
  reckonAnswer,
  stowAnswer,
  useAnswer,
} from "../../api/contract/stock.contract.ts";
import { checked } from "./checked.ts";
import { type SmallApp, smallApp } from "./small-app.ts";

let fleet: SmallApp;
beforeAll(async () => {
  fleet = await smallApp(true);
});
afterAll(() => fleet.store.close());

const post = (path: string, body: object) => request(fleet.app).post(path).send(body);

it("stows, uses, reckons and lists what is due as the contracts and the description say", async () => {
  const stowed = checked(
    await post("/api/stow", {
      part: "BP12-S",
      quantity: 2,
      place: "Engine room",
      expires: "6/2027",
    }),
    "/api/stow",
    "post",
    stowAnswer,
  );
  expect(stowed.lots).toMatchObject([{ left: 2, expires: "2027-06-30", state: "usable" }]);
  const used = checked(
    await post("/api/use", { part: "BP12-S", quantity: 3, for: "Bilge pump" }),
    "/api/use",
    "post",
    useAnswer,
  );
  expect(used.taken.map(({ expires, pieces }) => [expires, pieces])).toEqual([
    ["2027-06-30", 2],
    ["2031-01-01", 1],
  ]);
  expect(used.history).toMatchObject({ used: 3, model: { name: "BP-12" } });
  const reckoned = checked(await post("/api/reckon", {}), "/api/reckon", "post", reckonAnswer);
  expect(reckoned).toMatchObject({ sequence: null, lines: 0 });
  const due = checked(await request(fleet.app).get("/api/due"), "/api/due", "get", dueAnswer);
  expect(due).toMatchObject({ until: "2026-12-25", lots: [{ state: "out of date", quantity: 2 }] });
  const undone = await post(`/api/history/${used.sequence}/undo`, {});
  expect(undone.status).toBe(200);
  const find = await request(fleet.app).get("/api/find?text=BP12-S");
  expect(find.body.hits[0].aboard).toHaveLength(2);
});

it.each([
  ["/api/stow", { part: "BP12-S", quantity: 0, place: "Engine room" }, 400],
  ["/api/stow", { part: "BP12-S", quantity: 1, place: "Attic" }, 404],
  ["/api/use", { part: "BP12-S", quantity: 1, why: "bored" }, 400],
  ["/api/use", { part: "BP12-S", quantity: 99 }, 400],
])("%s refuses %j with %i", async (path, body, status) => {
  const answer = await post(path, body);
  expect(answer.status).toBe(status);
  expect(answer.headers["content-type"]).toMatch(/^application\/problem\+json/);
});
