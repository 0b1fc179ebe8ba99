import { kitAnswer, kitRequest } from "../contract/kit.contract.ts";
import { planKit } from "../plans/plan-kit.ts";
import { kitProblems } from "./kit-problems.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const kitRoute = postRoute(
  {
    path: "/api/kit",
    name: "planKit",
    summary: "The least kit that carries a vessel over a crossing, and why",
    problems: [...kitProblems, "contents-circular", "time-up", "solver-failed"],
  },
  kitRequest,
  kitAnswer,
  ({ body, signal }, { store, now }) => planKit(store, body, todayOf(now()), { signal }),
);
