import { orderRequest } from "../contract/order.contract.ts";
import { receiveAnswer, receiveRequest, savedOrders } from "../contract/orders.contract.ts";
import { receiveOrder } from "../plans/receive-order.ts";
import { saveOrders } from "../plans/save-orders.ts";
import { postRoute, type Route } from "./route.ts";
import { todayOf } from "./today-of.ts";
import { writerOf } from "./writer-of.ts";

/** Orders that are kept: planned as `/api/order` plans them, and received as stock. */
export const ordersRoutes: readonly Route[] = [
  postRoute(
    {
      path: "/api/orders",
      name: "saveOrders",
      summary: "Plans an order and keeps it, one per supplier",
      problems: [
        "not-found",
        "target-invalid",
        "crossing-invalid",
        "rate-invalid",
        "currency-mixed",
        "solver-failed",
        "key-taken",
      ],
    },
    orderRequest,
    savedOrders,
    ({ body, signal }, { store, now }) =>
      saveOrders(store, body, todayOf(now()), writerOf(now()), { signal }),
  ),
  postRoute(
    {
      path: "/api/orders/{id}/arrival",
      name: "receiveOrder",
      summary: "Turns an order that has come into stock where it was put",
      problems: ["not-found", "write-stale", "key-taken"],
    },
    receiveRequest,
    receiveAnswer,
    ({ body, parameters }, { store, now }) =>
      receiveOrder(store, parameters["id"] ?? "", body, todayOf(now()), writerOf(now())),
  ),
];
