import { z } from "zod";
import {
  changeDetail,
  historyAnswer,
  historyRequest,
  undoChangeAnswer,
} from "../contract/history.contract.ts";
import { Problem } from "../errors/problem.ts";
import { listChanges, showChange } from "../plans/changes/list-changes.ts";
import { undoChange } from "../plans/changes/undo-change.ts";
import { getRoute, type Route, type RouteCall, writeRoute } from "./route.ts";
import { writerOf } from "./writer-of.ts";

const nothing = z.strictObject({});

/** The number in the address. Errors: `not-found`. */
function sequenceOf({ parameters }: RouteCall<unknown, unknown>): number {
  const text = parameters["sequence"] ?? "";
  if (/^\d{1,15}$/.test(text)) return Number(text);
  throw new Problem(
    "not-found",
    `A change is named by its number; received "${text.slice(0, 60)}". The list of changes shows them.`,
  );
}

/** The list of changes, one change in full, and undo. */
export const historyRoutes: readonly Route[] = [
  getRoute(
    {
      path: "/api/history",
      name: "listChanges",
      summary: "What was changed, newest first, and whether it was undone",
      problems: [],
    },
    historyRequest,
    historyAnswer,
    ({ query }, { store }) => listChanges(store, query),
  ),
  getRoute(
    {
      path: "/api/history/{sequence}",
      name: "showChange",
      summary: "One change with the records it wrote, before and after",
      problems: ["not-found"],
    },
    nothing,
    changeDetail,
    (call, { store }) => showChange(store, sequenceOf(call)),
  ),
  writeRoute(
    {
      method: "post",
      path: "/api/history/{sequence}/undo",
      name: "undoChange",
      summary: "Takes back one change whole; an undo, taken back, does the change again",
      problems: ["not-found", "undo-blocked"],
    },
    { query: nothing },
    undoChangeAnswer,
    (call, { store, now }) => undoChange(store, sequenceOf(call), writerOf(now())),
  ),
];
