import { z } from "zod";
import { overviewAnswer } from "../contract/find.contract.ts";
import { surveyGraph } from "../plans/survey-graph.ts";
import { getRoute } from "./route.ts";

export const overviewRoute = getRoute(
  {
    path: "/api/overview",
    name: "surveyGraph",
    summary: "What is in the graph: counts, vessels, crossings, categories of gear",
    problems: [],
  },
  z.strictObject({}),
  overviewAnswer,
  (_call, { store }) => surveyGraph(store),
);
