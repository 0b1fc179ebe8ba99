import { doubtAnswer, doubtRequest } from "../contract/doubt.contract.ts";
import { weighDoubt } from "../plans/weigh-doubt.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const doubtRoute = postRoute(
  {
    path: "/api/doubt",
    name: "weighDoubt",
    summary: "How far a kit rests on assumed rates, which would change it, and rough passages",
    problems: [
      "contents-circular",
      "not-found",
      "target-invalid",
      "crossing-invalid",
      "rate-invalid",
      "currency-mixed",
    ],
  },
  doubtRequest,
  doubtAnswer,
  ({ body, signal }, { store, now }) => weighDoubt(store, body, todayOf(now()), { signal }),
);
