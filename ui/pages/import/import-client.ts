import type {
  ImportAnswer,
  ImportHistory,
  ImportOptions,
  UndoAnswer,
} from "../../../api/contract/import.contract.ts";
import { ask, change, send } from "../../data/ask.ts";

/** Sends a file's bytes as they are, with its options; a dry run proposes, otherwise it is committed. */
export const sendFile = (
  file: File,
  options: ImportOptions,
  signal?: AbortSignal,
): Promise<ImportAnswer> =>
  change<ImportAnswer>(
    `/api/imports?name=${encodeURIComponent(file.name)}&options=${encodeURIComponent(JSON.stringify(options))}`,
    {
      method: "POST",
      headers: { "content-type": "application/octet-stream" },
      body: file,
      ...(signal === undefined ? {} : { signal }),
    },
  );

export const importsSoFar = (signal?: AbortSignal): Promise<ImportHistory> =>
  ask<ImportHistory>("/api/imports", signal === undefined ? {} : { signal });

export const undoImport = (id: string): Promise<UndoAnswer> =>
  send<UndoAnswer>(`/api/imports/${encodeURIComponent(id)}/undo`, {});
