import { z } from "zod";
import {
  changeAnswer,
  createRequest,
  deleteAnswer,
  deleteRequest,
  dependantsAnswer,
  editRequest,
  linkAnswer,
  linkRequest,
  recordAnswer,
  recordsAnswer,
  recordsRequest,
} from "../contract/records.contract.ts";
import { createRecord } from "../plans/records/create-record.ts";
import { deleteRecord, showDependants } from "../plans/records/delete-record.ts";
import { editRecord } from "../plans/records/edit-record.ts";
import { linkRecords, type NamedLink, unlinkRecords } from "../plans/records/link-records.ts";
import { listRecords } from "../plans/records/list-records.ts";
import { showRecord } from "../plans/records/show-record.ts";
import { getRoute, type Route, type RouteCall, writeRoute } from "./route.ts";
import { writerOf } from "./writer-of.ts";

const nothing = z.strictObject({});
const idOf = ({ parameters }: RouteCall<unknown, unknown>): string => parameters["id"] ?? "";
const linkOf = ({ parameters }: RouteCall<unknown, unknown>): NamedLink => ({
  type: parameters["type"] ?? "",
  from: parameters["from"] ?? "",
  to: parameters["to"] ?? "",
});

/** Lists, shows and changes any record and relationship of the graph, as the schema declares them. */
export const recordRoutes: readonly Route[] = [
  getRoute(
    {
      path: "/api/records",
      name: "listRecords",
      summary: "A page of the records of a label, sorted and narrowed",
      problems: [],
    },
    recordsRequest,
    recordsAnswer,
    ({ query }, { store }) => listRecords(store, query),
  ),
  writeRoute(
    {
      method: "post",
      path: "/api/records",
      name: "createRecord",
      summary: "Makes a record with its values and relationships",
      problems: ["not-found", "key-taken"],
    },
    { query: nothing, body: createRequest },
    changeAnswer,
    ({ body }, { store, now }) => createRecord(store, body, writerOf(now())),
  ),
  getRoute(
    {
      path: "/api/records/{id}",
      name: "showRecord",
      summary: "A record whole: values, relationships both ways, journal",
      problems: ["not-found"],
    },
    nothing,
    recordAnswer,
    (call, { store }) => showRecord(store, idOf(call)),
  ),
  writeRoute(
    {
      method: "patch",
      path: "/api/records/{id}",
      name: "editRecord",
      summary: "Changes a record's values, or where its single relationships lead",
      problems: ["not-found", "write-stale", "key-taken"],
    },
    { query: nothing, body: editRequest },
    changeAnswer,
    (call, { store, now }) => editRecord(store, idOf(call), call.body, writerOf(now())),
  ),
  getRoute(
    {
      path: "/api/records/{id}/dependants",
      name: "showDependants",
      summary: "What would go with a record if it were deleted",
      problems: ["not-found"],
    },
    nothing,
    dependantsAnswer,
    (call, { store }) => showDependants(store, idOf(call)),
  ),
  writeRoute(
    {
      method: "delete",
      path: "/api/records/{id}",
      name: "deleteRecord",
      summary: "Deletes a record with everything that cannot be without it",
      problems: ["not-found", "write-stale", "has-dependants"],
    },
    { query: deleteRequest },
    deleteAnswer,
    (call, { store, now }) => deleteRecord(store, idOf(call), call.query, writerOf(now())),
  ),
  writeRoute(
    {
      method: "put",
      path: "/api/links/{type}/{from}/{to}",
      name: "linkRecords",
      summary: "Makes a relationship, or changes its values",
      problems: ["not-found", "write-stale", "key-taken"],
    },
    { query: nothing, body: linkRequest },
    linkAnswer,
    (call, { store, now }) => linkRecords(store, linkOf(call), call.body, writerOf(now())),
  ),
  writeRoute(
    {
      method: "delete",
      path: "/api/links/{type}/{from}/{to}",
      name: "unlinkRecords",
      summary: "Takes a relationship away",
      problems: ["not-found", "write-stale"],
    },
    { query: z.strictObject({ version: z.coerce.number().int() }) },
    linkAnswer,
    (call, { store, now }) =>
      unlinkRecords(store, linkOf(call), call.query.version, writerOf(now())),
  ),
];
