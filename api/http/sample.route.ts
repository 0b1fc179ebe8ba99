import { z } from "zod";
import { sampleAnswer } from "../contract/sample.contract.ts";
import { takeSample } from "../plans/take-sample.ts";
import { writeRoute } from "./route.ts";
import { writerOf } from "./writer-of.ts";

const nothing = z.strictObject({});

export const sampleRoute = writeRoute(
  {
    method: "post",
    path: "/api/sample",
    name: "takeSample",
    summary: "Fills an empty graph with the invented fleet, to look round in",
    problems: ["store-occupied", "file-unreadable"],
  },
  { query: nothing, body: nothing },
  sampleAnswer,
  (_call, { store, now }) => takeSample(store, writerOf(now())),
);
