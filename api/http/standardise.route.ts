import { standardiseAnswer, standardiseRequest } from "../contract/standardise.contract.ts";
import { standardiseGear } from "../plans/standardise-gear.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const standardiseRoute = postRoute(
  {
    path: "/api/standardise",
    name: "standardiseGear",
    summary: "What to keep and what to change within a budget, so that fewer makes cost less",
    problems: [
      "not-found",
      "target-invalid",
      "crossing-invalid",
      "rate-invalid",
      "currency-mixed",
      "solver-failed",
      "key-taken",
      "columns-unmatched",
      "file-empty",
    ],
  },
  standardiseRequest,
  standardiseAnswer,
  ({ body, signal }, { store, now }) => standardiseGear(store, body, todayOf(now()), { signal }),
);
