import request from "supertest";
import { expect, it } from "vitest";
import { sampleAnswer } from "../../api/contract/sample.contract.ts";
import { checked } from "./checked.ts";
import { smallApp } from "./small-app.ts";

it("fills an empty graph with the invented fleet, once", async () => {
  const { app, store } = await smallApp(false);
  const answer = checked(
    await request(app).post("/api/sample").send({}),
    "/api/sample",
    "post",
    sampleAnswer,
  );
  expect(answer.files.length).toBeGreaterThan(20);
  expect(await store.count("Vessel")).toBe(3);
  const again = await request(app).post("/api/sample").send({});
  expect(again.status).toBe(409);
  expect(again.body).toMatchObject({ code: "store-occupied" });
  expect(again.body.detail).toMatch(/3 vessels/);
  await store.close();
}, 60_000);

it("never mixes the invented fleet with a boat's own gear", async () => {
  const { app, store } = await smallApp(true);
  const before = await store.sequence();
  expect((await request(app).post("/api/sample").send({})).status).toBe(409);
  expect(await store.sequence()).toBe(before);
  await store.close();
});
