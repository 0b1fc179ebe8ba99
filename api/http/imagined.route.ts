import { imaginedAnswer, imaginedRequest } from "../contract/what-if.contract.ts";
import { describeImagined } from "../plans/describe-imagined.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const imaginedRoute = postRoute(
  {
    path: "/api/imagined",
    name: "describeImagined",
    summary: "What a what-if imagines, in words; nothing is written",
    problems: ["not-found", "key-taken", "columns-unmatched", "file-empty"],
  },
  imaginedRequest,
  imaginedAnswer,
  ({ body }, { store, now }) => describeImagined(store, body, todayOf(now())),
);
