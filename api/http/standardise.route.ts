import { standardiseAnswer, standardiseRequest } from "../contract/standardise.contract.ts";
import { standardiseGear } from "../plans/standardise-gear.ts";
import { kitProblems } from "./kit-problems.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const standardiseRoute = postRoute(
  {
    path: "/api/standardise",
    name: "standardiseGear",
    summary: "What to keep and what to change within a budget, so that fewer makes cost less",
    problems: [...kitProblems, "solver-failed"],
  },
  standardiseRequest,
  standardiseAnswer,
  ({ body, signal }, { store, now }) => standardiseGear(store, body, todayOf(now()), { signal }),
);
