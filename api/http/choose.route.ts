import { chooseAnswer, chooseRequest } from "../contract/choose.contract.ts";
import { chooseGear } from "../plans/choose-gear.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const chooseRoute = postRoute(
  {
    path: "/api/choose",
    name: "chooseGear",
    summary: "Which make a position should have: price, spares, suppliers and survival of each",
    problems: [
      "contents-circular",
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
  chooseRequest,
  chooseAnswer,
  ({ body }, { store, now }) => chooseGear(store, body, todayOf(now())),
);
