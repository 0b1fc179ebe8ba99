import request from "supertest";
import { afterAll, expect, it } from "vitest";
import { aboutAnswer } from "../../api/contract/about.contract.ts";
import { buildApp } from "../../api/http/build-app.ts";
import { openStore } from "../../api/store/open-store.ts";
import { checked } from "./checked.ts";
import { now } from "./small-app.ts";

const store = await openStore({ db: ":memory:", env: {} });
afterAll(() => store.close());

it("tells which program answers and where its data lives", async () => {
  const database = "In the file /somewhere/graph.db";
  const app = buildApp({ store, now, version: "1.2.3", database });
  const body = checked(await request(app).get("/api/about"), "/api/about", "get", aboutAnswer);
  const today = now().toISOString().slice(0, 10);
  expect(body).toEqual({ version: "1.2.3", database, today, vessels: 0 });
});

it("says so where the data is in memory only", async () => {
  const answer = await request(buildApp({ store, now })).get("/api/about");
  expect(answer.body).toMatchObject({ database: "In memory only" });
});
