import express from "express";
import request from "supertest";
import { afterAll, beforeAll, expect, it } from "vitest";
import { z } from "zod";
import { simulationAnswer } from "../../api/contract/simulation.contract.ts";
import { listen } from "../../api/http/listen.ts";
import { mountRoute } from "../../api/http/mount-route.ts";
import { replyWithProblem } from "../../api/http/reply-with-problem.ts";
import { getRoute } from "../../api/http/route.ts";
import { simulationRoute } from "../../api/http/simulation.route.ts";
import { openApiFaults } from "./open-api-check.ts";
import { now, type SmallApp, smallApp } from "./small-app.ts";

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

it("stops when the caller goes away", async () => {
  const reason = new Error("gone");
  const call = {
    parameters: {},
    query: {},
    body: { crossings: 1000 },
    signal: AbortSignal.abort(reason),
  };
  await expect(simulationRoute.handle(call, { store: fleet.store, now })).rejects.toBe(reason);
});

it("tells a route's work that its caller has gone, answers nobody, and goes on serving", async () => {
  const app = express();
  const began = Promise.withResolvers<AbortSignal>();
  const route = getRoute(
    { path: "/slow", name: "slow", summary: "", problems: [] },
    z.strictObject({}),
    z.object({}),
    async ({ signal }) => {
      began.resolve(signal);
      await new Promise((_resolve, reject) => {
        signal.addEventListener("abort", () => reject(signal.reason));
      });
      return {};
    },
  );
  mountRoute(app, route, { store: fleet.store, now });
  const failures: unknown[] = [];
  app.use(replyWithProblem((error) => failures.push(error)));
  app.get("/quick", (_request, response) => {
    response.json({});
  });
  const listening = await listen(app, 0);
  const gone = new AbortController();
  const asked = fetch(`${listening.address}slow`, { signal: gone.signal });
  const refused = expect(asked).rejects.toThrow();
  const signal = await began.promise;
  expect(signal.aborted).toBe(false);
  gone.abort();
  await refused;
  await expect.poll(() => signal.aborted).toBe(true);
  expect((await fetch(`${listening.address}quick`)).status).toBe(200);
  expect(failures).toEqual([]);
  await listening.close();
});
