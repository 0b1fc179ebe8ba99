import { readinessAnswer, readinessRequest } from "../contract/readiness.contract.ts";
import { surveyReadiness } from "../plans/survey-readiness.ts";
import { getRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const readinessRoute = getRoute(
  {
    path: "/api/readiness",
    name: "surveyReadiness",
    summary: "What needs attention, per vessel, before its next crossing",
    problems: ["not-found", "crossing-invalid", "rate-invalid", "currency-mixed"],
  },
  readinessRequest,
  readinessAnswer,
  ({ query }, { store, now }) => surveyReadiness(store, query, todayOf(now())),
);
