import { voyageAnswer, voyageRequest } from "../contract/voyage.contract.ts";
import { planVoyage } from "../plans/plan-voyage.ts";
import { kitProblems } from "./kit-problems.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const voyageRoute = postRoute(
  {
    path: "/api/voyage",
    name: "planVoyage",
    summary: "The kit at each departure of a voyage of legs, given what its ports supply",
    problems: [...kitProblems, "supersession-cycle"],
  },
  voyageRequest,
  voyageAnswer,
  ({ body }, { store, now }) => planVoyage(store, body, todayOf(now())),
);
