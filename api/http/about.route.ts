import { z } from "zod";
import { aboutAnswer } from "../contract/about.contract.ts";
import { getRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const aboutRoute = getRoute(
  {
    path: "/api/about",
    name: "tellAbout",
    summary: "Which program answers, and where its data lives",
    problems: [],
  },
  z.strictObject({}),
  aboutAnswer,
  async (_call, { about, store, now }) => ({
    version: about?.version ?? "0.0.0",
    database: about?.database ?? "In memory only",
    today: todayOf(now()),
    vessels: await store.count("Vessel"),
  }),
);
