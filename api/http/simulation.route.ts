import { simulationAnswer, simulationRequest } from "../contract/simulation.contract.ts";
import { simulateCrossing } from "../plans/simulate-crossing.ts";
import { kitProblems } from "./kit-problems.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const simulationRoute = postRoute(
  {
    path: "/api/simulation",
    name: "simulateCrossing",
    summary: "A crossing played many times with what is aboard and with the kit",
    problems: [...kitProblems, "contents-circular", "time-up", "solver-failed"],
  },
  simulationRequest,
  simulationAnswer,
  ({ body, signal }, { store, now }) => simulateCrossing(store, body, todayOf(now()), { signal }),
);
