import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { buildApp } from "../../api/http/build-app.ts";
import { listen } from "../../api/http/listen.ts";
import { openStore } from "../../api/store/open-store.ts";
import type { Figure } from "../bench/figure.ts";
import { hundredThousand, stowedFleet } from "../bench/stowed-fleet.ts";
import { framesWhileScrolling } from "./frames.ts";
import { openPage } from "./open-browser.ts";

const laptop = { width: 1366, height: 768 };
const now = new Date("2026-11-20T12:00:00Z");

/** Pages that must open at once however much is on file, each with something that stands there when it has its answer. */
const opened = [
  { path: "overview", holds: ".vessel-links a" },
  { path: "parts", holds: "main table tbody a" },
  { path: "gear", holds: "main table tbody a" },
  { path: "lockers", holds: "main .lots tbody th" },
  { path: "find?text=impeller", holds: "main table tbody th" },
  { path: "labels", holds: "main .label, main .sentence" },
] as const;

/** Texts as they grow under the fingers. */
const typed = ["impeller 20", "B45-0001", "Maker 77", "Locker 3", "oil filter"].flatMap((text) =>
  Array.from(text, (_, at) => text.slice(0, at + 1)).filter((part) => !part.endsWith(" ")),
);

/** Milliseconds by the page's own clock: the program runs in this process, which it may keep busy. */
const openingTime = (page: Page, path: string, holds: string): Promise<number> =>
  page.evaluate(
    ([to, selector]) =>
      new Promise<number>((resolve, reject) => {
        const from = performance.now();
        window.location.hash = `#/${to}`;
        const look = () => {
          const now = performance.now() - from;
          if (document.querySelector(selector) !== null) resolve(now);
          else if (now > 60_000) reject(new Error(`${to} has nothing at ${selector}`));
          else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
      }),
    [path, holds] as const,
  );

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

const below = (name: string, value: number, limit: number): Figure => ({
  name,
  value,
  unit: "ms",
  target: `< ${limit}`,
  meets: value < limit,
});

/**
 * What a person waits for with 100 000 parts and as many lots on 150 vessels: each page from its address to its answer, the
 * search as one types over HTTP, and long lists scrolled. The program has answered once before, as it has when it was
 * begun the same day.
 */
export async function measureLarge(browser: Browser, built: string): Promise<readonly Figure[]> {
  const folder = mkdtempSync(join(tmpdir(), "sparewright-large-"));
  const store = await openStore({ db: join(folder, "graph.sqlite"), env: {} });
  await store.apply(
    { changes: stowedFleet(hundredThousand, now) },
    { who: "bench", at: now.toISOString(), importOf: { fileName: "fleet" } },
  );
  const listening = await listen(buildApp({ store, now: () => now, uiFolder: built }), 0);
  const address = listening.address.replace(/\/$/, "");
  try {
    await (await fetch(`${address}/api/overview`)).text();
    const figures: Figure[] = [];
    for (const { path, holds } of opened) {
      const { page } = await openPage(browser, laptop);
      await page.goto(`${address}/#/settings`);
      await page.locator("main h2").first().waitFor();
      const time = await openingTime(page, path, holds);
      figures.push(below(`100 000 parts: ${path.split("?")[0]} opens`, time, 1000));
      if (path === "parts")
        figures.push(frames("parts", await framesWhileScrolling(page, ".table-box.long", step)));
      await page.context().close();
    }
    const times: number[] = [];
    for (const text of typed) {
      const from = performance.now();
      const response = await fetch(`${address}/api/find?text=${encodeURIComponent(text)}&limit=8`);
      await response.text();
      times.push(performance.now() - from);
    }
    return [
      ...figures,
      below("100 000 parts: search as one types, median", median(times), 50),
      below("100 000 parts: search as one types, slowest letter", Math.max(...times), 50),
    ];
  } finally {
    await listening.close();
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

const step = { x: 0, y: 90 };

const frames = (name: string, value: number): Figure => ({
  name: `100 000 parts: scrolling ${name}`,
  value,
  unit: "frames/s",
  target: ">= 50",
  meets: value >= 50,
});
