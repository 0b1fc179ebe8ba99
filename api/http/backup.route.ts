import { Readable } from "node:stream";
import { createGunzip } from "node:zlib";
import { z } from "zod";
import { restoreAnswer } from "../contract/backup.contract.ts";
import { Problem } from "../errors/problem.ts";
import { backupLines, restoreGraph } from "../plans/backup-graph.ts";
import { splitLines } from "../plans/split-lines.ts";
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

/** The most a packed backup may unpack to: what could come through the wire in plain is far less, a command takes any. */
const mostUnpacked = 1024 * 2 ** 20;

export const restoreRoute: Route = {
  method: "post",
  path: "/api/restore",
  name: "restore",
  summary:
    "Fills an empty graph from a backup (plain or packed with gzip), whole or not at all; its journal comes with it, so what was done before can still be undone",
  problems: ["backup-damaged", "store-occupied"],
  body: { kind: "file" },
  answer: { kind: "json", schema: restoreAnswer },
  handle: ({ body }, { store }) => {
    const bytes = body instanceof Uint8Array ? body : new Uint8Array();
    return restoreGraph(store, () => splitLines(unpacked(bytes)));
  },
};

const isPacked = (bytes: Uint8Array): boolean => bytes[0] === 0x1f && bytes[1] === 0x8b;

async function* unpacked(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  if (!isPacked(bytes)) {
    yield bytes;
    return;
  }
  let size = 0;
  const pieces = Readable.from([bytes]).pipe(createGunzip());
  try {
    for await (const piece of pieces as AsyncIterable<Uint8Array>) {
      size += piece.length;
      if (size > mostUnpacked)
        throw new Problem(
          "file-too-large",
          `A backup sent here may unpack to ${mostUnpacked / 2 ** 20} MB; this one holds more. Use the command \`sparewright restore\`.`,
        );
      yield piece;
    }
  } catch (cause) {
    if (cause instanceof Problem) throw cause;
    throw new Problem(
      "backup-damaged",
      "A packed backup must unpack; this file does not. Nothing was restored. Use another copy of the backup, or make it again.",
      { cause },
    );
  }
}
