import { minimumsAnswer, minimumsRequest } from "../contract/minimums.contract.ts";
import { checkMinimums } from "../plans/check-minimums.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const minimumsRoute = postRoute(
  {
    path: "/api/minimums",
    name: "checkMinimums",
    summary: "What is aboard and in the kit, held against published minimum lists or one's own",
    problems: [
      "contents-circular",
      "time-up",
      "solver-failed",
      "not-found",
      "crossing-invalid",
      "rate-invalid",
      "currency-mixed",
      "file-empty",
      "file-binary",
    ],
  },
  minimumsRequest,
  minimumsAnswer,
  ({ body }, { store, now }) => checkMinimums(store, body, todayOf(now())),
);
