import request from "supertest";
import { afterAll, beforeAll, expect, it } from "vitest";
import { kitAnswer } from "../../api/contract/kit.contract.ts";
import { openApiFaults } from "./open-api-check.ts";
import { type SmallApp, smallApp } from "./small-app.ts";

let fleet: SmallApp;
beforeAll(async () => {
  fleet = await smallApp(true);
});
afterAll(() => fleet.store.close());

const kit = (body: object) => request(fleet.app).post("/api/kit").send(body);

it("answers a kit within caps as its contract and its description say", async () => {
  const body = { caps: { cost: { minor: 6000, currency: "EUR" } }, seconds: 10 };
  const response = await kit(body);
  expect(response.status, response.text).toBe(200);
  expect(openApiFaults("/api/kit", "post", 200, "application/json", response.body)).toEqual([]);
  const answer = kitAnswer.parse(response.body);
  expect(answer.sale).toMatchObject({ aim: "most", method: "mixed-integer programme" });
  expect(answer.total.cost.minor).toBeLessThanOrEqual(6000);
  const bought = answer.purchases.reduce((sum, { cost }) => sum + cost.minor, 0);
  expect(bought).toBe(answer.total.cost.minor);
});

it("answers caps below safety with reasons, not with a problem", async () => {
  const response = await kit({ caps: { cost: { minor: 1, currency: "EUR" } } });
  expect(response.status, response.text).toBe(200);
  expect(openApiFaults("/api/kit", "post", 200, "application/json", response.body)).toEqual([]);
  const answer = kitAnswer.parse(response.body);
  expect(answer.status).toBe("infeasible");
  expect(answer.sale.shortfalls[0]?.short).toBeGreaterThan(0);
});

it.each([
  [{ caps: { massKg: -1 } }, "/caps/massKg"],
  [{ caps: { cost: { minor: 10.5, currency: "EUR" } } }, "/caps/cost/minor"],
  [{ caps: { cost: { minor: 10, currency: "euro" } } }, "/caps/cost/currency"],
  [{ caps: { lockers: [] } }, "/caps/lockers"],
  [{ caps: { lockers: [{ locker: "Engine room", massKg: -3 }] } }, "/caps/lockers/0/massKg"],
  [{ aim: "best" }, "/aim"],
  [{ weights: { safety: -1 } }, "/weights/safety"],
  [{ seconds: 0 }, "/seconds"],
])("refuses %j and names the member", async (body, pointer) => {
  const response = await kit(body);
  expect(response.status).toBe(400);
  expect(response.body.errors).toMatchObject([{ pointer }]);
});

it.each([
  [{ caps: { lockers: [{ locker: "Attic", massKg: 1 }] } }, 404, "not-found"],
  [{ caps: { massKg: 1 }, rule: "each part" }, 400, "input-invalid"],
  [{ caps: { cost: { minor: 100, currency: "USD" } } }, 400, "currency-mixed"],
])("refuses %j with its problem", async (body, status, code) => {
  const response = await kit(body);
  expect(response.status, response.text).toBe(status);
  expect(response.body.code).toBe(code);
  expect(
    openApiFaults("/api/kit", "post", status, "application/problem+json", response.body),
  ).toEqual([]);
});
