import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  axeFindings,
  hasChromium,
  mustRun,
  openBrowser,
  openPage,
  whySkipped,
} from "./open-browser.ts";
import { type DemoScreen, openDemoScreen, startLimit } from "./open-demo-screen.ts";

const laptop = { width: 1366, height: 768 };
const phone = { width: 390, height: 844 };
const patience = 90_000;

const widthOf = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth);

describe.skipIf(!hasChromium && !mustRun)(
  `answers that are asked for by a press (${hasChromium ? "Chromium found" : whySkipped})`,
  () => {
    let browser: Browser;
    let demo: DemoScreen;
    beforeAll(async () => {
      browser = await openBrowser();
      demo = await openDemoScreen();
    }, startLimit);
    afterAll(async () => {
      await browser?.close();
      await demo?.stop();
    });

    it("says what to keep and change, and asks anew when the budget changes", async () => {
      const { page, complaints } = await openPage(browser, phone);
      await page.goto(
        `${demo.address}/#/choosing?budget=20000&years=10&supplieryear=600&kityear=300`,
      );
      const section = page.getByRole("region", { name: "Would fewer makes cost less?" });
      await section.getByRole("button", { name: "Work out what to keep and change" }).click();
      await section
        .getByRole("table", { name: "Before and after the changes" })
        .waitFor({ timeout: patience });
      const steps = section.getByRole("table", { name: "Changes in the order that pays best" });
      expect(await steps.getByRole("row").count()).toBeGreaterThan(1);
      const kinds = section.getByRole("table", { name: "One make for another, kind by kind" });
      expect(await kinds.getByRole("row").count()).toBeGreaterThan(2);
      await section.getByRole("heading", { name: "What speaks against it" }).waitFor();
      await section.getByText(/safety gear is never thinned out/).waitFor();
      await section.getByText(/not a statement of compliance/).waitFor();
      expect(await axeFindings(page)).toEqual([]);
      expect(await widthOf(page)).toBeLessThanOrEqual(phone.width);

      const budget = section.getByRole("textbox", { name: /^Most to spend on changes/ });
      await budget.fill("0");
      await budget.press("Enter");
      await expect.poll(() => page.url()).toContain("budget=0");
      await section.getByRole("button", { name: "Work out what to keep and change" }).click();
      await section.getByText(/^Keep everything/).waitFor({ timeout: patience });
      expect(await steps.count()).toBe(0);
      expect(complaints).toEqual([]);
      await page.context().close();
    }, 200_000);

    it("says what to do before leaving, plays the crossing, and holds it to minimum lists", async () => {
      const { page, complaints } = await openPage(browser, laptop, "night");
      const asked: string[] = [];
      page.on("request", (request) => asked.push(new URL(request.url()).pathname));
      await page.goto(`${demo.address}/#/crossing`);
      const work = page.getByRole("region", { name: "What is better done before leaving?" });
      await work.waitFor();
      expect(asked).toContain("/api/kit");
      expect(asked.filter((path) => /preparation|simulation|minimums/.test(path))).toEqual([]);

      await work.getByRole("button", { name: "Try the work before leaving" }).click();
      const jobs = work.getByRole("table", { name: "Work before leaving, what saves most first" });
      await jobs.waitFor({ timeout: patience });
      expect(await jobs.getByRole("row").count()).toBeGreaterThan(1);

      const lists = page.getByRole("region", { name: "Do the published minimum lists hold?" });
      await lists.getByRole("button", { name: "Hold the kit against minimum lists" }).click();
      await lists.getByRole("cell", { name: "✕ short" }).waitFor({ timeout: patience });
      expect(await lists.getByRole("table").count()).toBe(2);

      const play = page.getByRole("region", { name: "What if the crossing is played many times?" });
      const begin = play.getByRole("button", { name: "Play the crossing 100 000 times" });
      await begin.click();
      await play.getByRole("button", { name: "Stop" }).click();
      await begin.click();
      const tiers = play.getByRole("table", { name: /^No part runs short, by tier/ });
      await tiers.waitFor({ timeout: patience });
      expect(await tiers.getByRole("row", { name: /safety/ }).textContent()).toMatch(
        /0\.\d+ \(0\.\d+ to 0\.\d+\)0\.\d+ ./,
      );
      await play.getByRole("table", { name: /^What keeps working/ }).waitFor();
      expect(await axeFindings(page)).toEqual([]);
      expect(await widthOf(page)).toBeLessThanOrEqual(laptop.width);

      await page.getByRole("textbox", { name: "Target, passage" }).fill("0.9");
      await page.getByRole("textbox", { name: "Target, passage" }).press("Enter");
      await begin.waitFor();
      expect(await tiers.count()).toBe(0);
      expect(complaints).toEqual([]);
      await page.context().close();
    }, 300_000);
  },
);
