import { orderAnswer, orderRequest } from "../contract/order.contract.ts";
import { orderKit } from "../plans/order-kit.ts";
import { postRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";

export const orderRoute = postRoute(
  {
    path: "/api/order",
    name: "orderKit",
    summary: "What to order from whom so that the kit is aboard in time at least cost",
    problems: [
      "contents-circular",
      "not-found",
      "target-invalid",
      "crossing-invalid",
      "rate-invalid",
      "currency-mixed",
      "solver-failed",
    ],
  },
  orderRequest,
  orderAnswer,
  ({ body, signal }, { store, now }) => orderKit(store, body, todayOf(now()), { signal }),
);
