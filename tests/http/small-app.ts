import type { Express } from "express";
import { buildApp } from "../../api/http/build-app.ts";
import { importFile } from "../../api/plans/import-file.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { smallFleetCrossingCsv, smallFleetCsv } from "./small-fleet.ts";

export const now = (): Date => new Date("2026-11-20T12:00:00Z");

export interface SmallApp {
  readonly app: Express;
  readonly store: GraphStore;
  readonly reported: unknown[];
}

/** An app over a graph in memory: empty, or holding the small fleet. */
export async function smallApp(filled: boolean): Promise<SmallApp> {
  const store = await openStore({ db: ":memory:", env: {} });
  if (filled) {
    const occasion = { who: "test", at: now().toISOString() };
    const files = [
      { name: "fleet.csv", text: smallFleetCsv },
      { name: "crossing.csv", text: smallFleetCrossingCsv },
    ];
    for (const { name, text } of files) {
      await importFile(store, { name, bytes: new TextEncoder().encode(text) }, {}, occasion);
    }
  }
  const reported: unknown[] = [];
  const app = buildApp({ store, now, report: (error) => reported.push(error) });
  return { app, store, reported };
}
