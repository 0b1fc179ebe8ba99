import { z } from "zod";
import {
  dueAnswer,
  dueQuery,
  dueRequest,
  reckonAnswer,
  reckonRequest,
  stowAnswer,
  stowRequest,
  useAnswer,
  useRequest,
} from "../contract/stock.contract.ts";
import { stowageAnswer, stowageRequest } from "../contract/stowage.contract.ts";
import { listDue } from "../plans/list-due.ts";
import { listStowage } from "../plans/list-stowage.ts";
import { reckonHistories } from "../plans/stock/reckon-histories.ts";
import { stowPieces } from "../plans/stock/stow-pieces.ts";
import { usePieces } from "../plans/stock/use-pieces.ts";
import { getRoute, postRoute, type Route, writeRoute } from "./route.ts";
import { todayOf } from "./today-of.ts";
import { writerOf } from "./writer-of.ts";

const nothing = z.strictObject({});

/** What is put away, taken out, and falls due. */
export const stockRoutes: readonly Route[] = [
  writeRoute(
    {
      method: "post",
      path: "/api/stow",
      name: "stowPieces",
      summary: "Puts pieces of a part away in a place, or moves them there",
      problems: ["not-found", "write-stale", "key-taken"],
    },
    { query: nothing, body: stowRequest },
    stowAnswer,
    ({ body }, { store, now }) => stowPieces(store, body, todayOf(now()), writerOf(now())),
  ),
  writeRoute(
    {
      method: "post",
      path: "/api/use",
      name: "usePieces",
      summary: "Takes pieces, first out of date first used, and writes the use down",
      problems: ["not-found", "write-stale"],
    },
    { query: nothing, body: useRequest },
    useAnswer,
    ({ body }, { store, now }) => usePieces(store, body, todayOf(now()), writerOf(now())),
  ),
  writeRoute(
    {
      method: "post",
      path: "/api/reckon",
      name: "reckonHistories",
      summary: "Brings every own history forward to today: time without use counts too",
      problems: ["write-stale"],
    },
    { query: nothing, body: reckonRequest },
    reckonAnswer,
    (_call, { store, now }) => reckonHistories(store, todayOf(now()), writerOf(now())),
  ),
  getRoute(
    {
      path: "/api/stowage",
      name: "listStowage",
      summary: "What lies in a place, first to use first, and the places beside it",
      problems: ["not-found", "crossing-invalid"],
    },
    stowageRequest,
    stowageAnswer,
    ({ query }, { store, now }) => listStowage(store, query, todayOf(now())),
  ),
  getRoute(
    {
      path: "/api/due",
      name: "listDue",
      summary: "What falls out of date and which services fall due, until a day",
      problems: ["not-found", "crossing-invalid"],
    },
    dueQuery,
    dueAnswer,
    ({ query }, { store, now }) => listDue(store, query, todayOf(now())),
  ),
  postRoute(
    {
      path: "/api/due",
      name: "imagineDue",
      summary: "What falls out of date and which services fall due; changes can be imagined",
      problems: ["not-found", "crossing-invalid", "key-taken", "columns-unmatched", "file-empty"],
    },
    dueRequest,
    dueAnswer,
    ({ body }, { store, now }) => listDue(store, body, todayOf(now())),
  ),
];
