import { kitAnswer, kitRequest } from "../contract/kit.contract.ts";
import { planKit } from "../plans/plan-kit.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const kitRoute = postRoute(
  {
    path: "/api/kit",
    name: "planKit",
    summary: "The least kit that carries a vessel over a crossing, and why",
    problems: [
      "contents-circular",
      "time-up",
      "solver-failed",
      "not-found",
      "target-invalid",
      "crossing-invalid",
      "rate-invalid",
      "currency-mixed",
      "key-taken",
      "columns-unmatched",
      "file-empty",
    ],
  },
  kitRequest,
  kitAnswer,
  ({ body, signal }, { store, now }) => planKit(store, body, todayOf(now()), { signal }),
);
