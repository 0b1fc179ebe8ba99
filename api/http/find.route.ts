import { findAnswer, findRequest } from "../contract/find.contract.ts";
import { findSpares } from "../plans/find-spares.ts";
import { getRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const findRoute = getRoute(
  {
    path: "/api/find",
    name: "findSpares",
    summary: "Where a spare is, how many, whether it is in date, and what takes it",
    problems: [],
  },
  findRequest,
  findAnswer,
  ({ query }, { store, now }) => findSpares(store, query, todayOf(now())),
);
