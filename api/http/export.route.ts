import { z } from "zod";
import { exportList } from "../plans/export-lists.ts";
import type { Attachment, Route } from "./route.ts";

export const exportRoute: Route = {
  method: "get",
  path: "/api/export/{list}",
  name: "exportList",
  summary: "A list of the graph as CSV, which can be taken in again",
  problems: ["not-found"],
  query: z.strictObject({}),
  answer: { kind: "text", mediaType: "text/csv" },
  handle: async ({ parameters }, { store }): Promise<Attachment> => {
    const list = parameters["list"] ?? "";
    const { fileName, text } = await exportList(store, list);
    return { fileName, mediaType: "text/csv; charset=utf-8", text };
  },
};
