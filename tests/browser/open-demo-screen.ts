import { rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildApp } from "../../api/http/build-app.ts";
import { listen } from "../../api/http/listen.ts";
import { openDemo } from "../../api/plans/open-demo.ts";
import { openStore } from "../../api/store/open-store.ts";
import { buildScreen } from "./open-browser.ts";

const demo = fileURLToPath(new URL("../../importers/demo", import.meta.url));
const now = () => new Date("2026-11-20T12:00:00Z");

/** Longest wait for it: reading the invented fleet takes seconds on a busy machine, a build as well. */
export const startLimit = 180_000;

/** The program itself with the invented fleet in memory, serving a freshly built screen. */
export interface DemoScreen {
  readonly address: string;
  readonly built: string;
  /** What failed inside the program so far. */
  readonly reported: readonly unknown[];
  /** Ends the program but keeps the address for `comeBack`. */
  readonly goAway: () => Promise<void>;
  readonly comeBack: () => Promise<void>;
  readonly stop: () => Promise<void>;
}

/** Starts it on a free port of the loopback. */
export async function openDemoScreen(): Promise<DemoScreen> {
  const built = buildScreen();
  const store = await openStore({ db: ":memory:", env: {} });
  await openDemo(store, demo, { who: "tests", at: now().toISOString() });
  const reported: unknown[] = [];
  const app = buildApp({ store, now, uiFolder: built, report: (error) => reported.push(error) });
  let listening = await listen(app, 0);
  const address = listening.address.replace(/\/$/, "");
  const port = Number(new URL(address).port);
  return {
    address,
    built,
    reported,
    goAway: () => listening.close(),
    comeBack: async () => {
      listening = await listen(app, port);
    },
    stop: async () => {
      await listening.close();
      await store.close();
      rmSync(join(built, ".."), { recursive: true, force: true });
    },
  };
}
