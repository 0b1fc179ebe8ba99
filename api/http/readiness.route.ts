import {
  readinessAnswer,
  readinessQuery,
  readinessRequest,
} from "../contract/readiness.contract.ts";
import { surveyReadiness } from "../plans/survey-readiness.ts";
import { getRoute, postRoute, type Route } from "./route.ts";
import { todayOf } from "./today-of.ts";

const path = "/api/readiness";
const summary = "What needs attention, per vessel, before its next crossing";
const problems = ["not-found", "crossing-invalid", "rate-invalid", "currency-mixed"] as const;

/** Asked by address, or with a body where changes are to be imagined. */
export const readinessRoutes: readonly Route[] = [
  getRoute(
    { path, name: "surveyReadiness", summary, problems },
    readinessQuery,
    readinessAnswer,
    ({ query }, { store, now }) => surveyReadiness(store, query, todayOf(now())),
  ),
  postRoute(
    {
      path,
      name: "imagineReadiness",
      summary: `${summary}; changes can be imagined`,
      problems: [...problems, "key-taken", "columns-unmatched", "file-empty"],
    },
    readinessRequest,
    readinessAnswer,
    ({ body }, { store, now }) => surveyReadiness(store, body, todayOf(now())),
  ),
];
