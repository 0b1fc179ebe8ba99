import request from "supertest";
import { afterAll, beforeAll, expect, it } from "vitest";
import { simulationAnswer } from "../../api/contract/simulation.contract.ts";
import { openApiFaults } from "./open-api-check.ts";
import { type SmallApp, smallApp } from "./small-app.ts";

let fleet: SmallApp;
beforeAll(async () => {
  fleet = await smallApp(true);
});
afterAll(() => fleet.store.close());

const simulate = (body: object) => request(fleet.app).post("/api/simulation").send(body);

it("plays a crossing over HTTP as its contract and its description say", async () => {
  const response = await simulate({ crossings: 5000, seed: 3 });
  expect(response.status, response.text).toBe(200);
  expect(openApiFaults("/api/simulation", "post", 200, "application/json", response.body)).toEqual(
    [],
  );
  const answer = simulationAnswer.parse(response.body);
  expect(answer).toMatchObject({ crossings: 5000, seed: 3, vessel: { name: "Tamarisk" } });
  expect(answer.cautions.length).toBeGreaterThan(3);
  for (const { withKit } of answer.tiers) {
    expect(withKit.simulated.low).toBeLessThanOrEqual(withKit.simulated.value);
    expect(withKit.simulated.value).toBeLessThanOrEqual(withKit.simulated.high);
  }
});

it.each([
  [{ crossings: 10 }, "/crossings"],
  [{ crossings: 2000.5 }, "/crossings"],
  [{ seed: -1 }, "/seed"],
  [{ targets: { safety: 1 } }, "/targets/safety"],
])("refuses %j and names the member", async (body, pointer) => {
  const response = await simulate(body);
  expect(response.status).toBe(400);
  expect(response.body.errors).toMatchObject([{ pointer }]);
});
