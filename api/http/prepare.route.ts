import { prepareAnswer, prepareRequest } from "../contract/prepare.contract.ts";
import { prepareDeparture } from "../plans/prepare-departure.ts";
import { kitProblems } from "./kit-problems.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const prepareRoute = postRoute(
  {
    path: "/api/preparation",
    name: "prepareDeparture",
    summary: "Services and replacements better done before leaving, with what each saves the kit",
    problems: [...kitProblems, "supersession-cycle"],
  },
  prepareRequest,
  prepareAnswer,
  ({ body, signal }, { store, now }) => prepareDeparture(store, body, todayOf(now()), { signal }),
);
