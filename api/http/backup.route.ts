import { z } from "zod";
import { backupLines } from "../plans/backup-graph.ts";
import type { Attachment, Route } from "./route.ts";

export const backupRoute: Route = {
  method: "get",
  path: "/api/backup",
  name: "backup",
  summary:
    "Everything, journal included, as lines of JSON; `sparewright restore FILE` takes it back",
  problems: [],
  query: z.strictObject({}),
  answer: { kind: "text", mediaType: "application/x-ndjson" },
  handle: async (_call, { store, now }): Promise<Attachment> => ({
    fileName: `sparewright-${now().toISOString().slice(0, 10)}.backup`,
    mediaType: "application/x-ndjson; charset=utf-8",
    text: backupLines(store),
  }),
};
