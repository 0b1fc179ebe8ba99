import { prepareAnswer, prepareRequest } from "../contract/prepare.contract.ts";
import { prepareDeparture } from "../plans/prepare-departure.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const prepareRoute = postRoute(
  {
    path: "/api/preparation",
    name: "prepareDeparture",
    summary: "Services and replacements better done before leaving, with what each saves the kit",
    problems: [
      "not-found",
      "target-invalid",
      "crossing-invalid",
      "rate-invalid",
      "currency-mixed",
      "supersession-cycle",
      "key-taken",
      "columns-unmatched",
      "file-empty",
    ],
  },
  prepareRequest,
  prepareAnswer,
  ({ body, signal }, { store, now }) => prepareDeparture(store, body, todayOf(now()), { signal }),
);
