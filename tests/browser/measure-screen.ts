import type { Page } from "playwright-core";
import type { Figure } from "../bench/figure.ts";
import { firstScriptBytes } from "./first-scripts.ts";
import { framesWhileScrolling } from "./frames.ts";
import { largeCommonality } from "./large-answers.ts";
import { measureLarge } from "./measure-large.ts";
import { hasChromium, openBrowser, openPage } from "./open-browser.ts";
import { openDemoScreen } from "./open-demo-screen.ts";
import { changePages, type PageChange } from "./page-changes.ts";

const laptop = { width: 1366, height: 768 };

const headingOf = ({ heading }: PageChange) => heading;
const contentOf = ({ content }: PageChange) => content;

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Milliseconds from the answer's arrival to the first picture of 300 models by 3 000 parts. */
async function firstDrawing(page: Page): Promise<number> {
  await page.evaluate(() => {
    const original = window.fetch;
    window.fetch = async (...request) => {
      const response = await original(...request);
      if (String(request[0]).includes("/api/commonality"))
        document.documentElement.dataset["answered"] = String(performance.now());
      return response;
    };
    window.location.hash = "#/commonality";
  });
  await page.locator("canvas[data-drawn]").waitFor();
  return page.evaluate(
    () => performance.now() - Number(document.documentElement.dataset["answered"]),
  );
}

/** What a person at the screen waits for, in real Chromium; nothing where there is none. */
export async function measureScreen(): Promise<readonly Figure[]> {
  if (!hasChromium) return [];
  const browser = await openBrowser();
  const demo = await openDemoScreen();
  try {
    const { page } = await openPage(browser, laptop);
    const from = performance.now();
    await page.goto(`${demo.address}/#/overview`);
    await page.getByRole("heading", { level: 1 }).waitFor();
    const interactive = performance.now() - from;
    await page.getByRole("heading", { name: "What needs attention" }).waitFor();
    const kilobytes = firstScriptBytes(demo.built) / 1000;
    await page.waitForTimeout(2500);
    const changes = await changePages(page);
    await page.waitForTimeout(1000);
    const returns = await changePages(page);
    await page.route("**/api/commonality", (route) => route.fulfill({ json: largeCommonality() }));
    const drawing = await firstDrawing(page);
    await page.getByText("Draw parts that one model only takes").click();
    const whole = await framesWhileScrolling(page, ".matrix-big", { x: 7, y: 3 });
    await page.getByRole("button", { name: "Nearer" }).click();
    await page.getByRole("button", { name: "Nearer" }).click();
    const near = await framesWhileScrolling(page, ".matrix-big", { x: 7, y: 3 });
    await page.goto(`${demo.address}/#/patterns`);
    await page.getByRole("button", { name: "Fill with a hundred thousand rows" }).click();
    await page.getByRole("table", { name: "A hundred thousand rows" }).waitFor();
    const list = await framesWhileScrolling(page, ".table-box.long", { x: 0, y: 90 });
    const large = await measureLarge(browser, demo.built);
    const below = (name: string, value: number, unit: string, limit: number): Figure => ({
      name,
      value,
      unit,
      target: `< ${limit}`,
      meets: value < limit,
    });
    const frames = (name: string, value: number): Figure => ({
      name,
      value,
      unit: "frames/s",
      target: ">= 50",
      meets: value >= 50,
    });
    return [
      below("script of the first page, compressed", kilobytes, "kB", 250),
      below("first page to its heading, cold browser", interactive, "ms", 1000),
      below("change of page to its heading, median", median(changes.map(headingOf)), "ms", 100),
      below("return to a page, to its answer, median", median(returns.map(contentOf)), "ms", 100),
      below("first drawing of 300 models by 3 000 parts", drawing, "ms", 500),
      frames("panning the whole matrix", whole),
      frames("panning the matrix nearer", near),
      frames("scrolling 100 000 rows", list),
      ...large,
    ];
  } finally {
    await browser.close();
    await demo.stop();
  }
}
