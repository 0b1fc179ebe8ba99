import type { Browser } from "playwright-core";
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

describe.skipIf(!hasChromium && !mustRun)(
  `the screen while the program is away (${hasChromium ? "Chromium found" : whySkipped})`,
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

    it("opens, shows what was last said, refuses changes with a word, and goes on when it is back", async () => {
      const { page } = await openPage(browser, laptop);
      await page.goto(`${demo.address}/#/crossing`);
      await page.getByRole("heading", { name: "The kit, and why" }).waitFor();
      await page.goto(`${demo.address}/#/parts?text=MV.005`);
      await page.getByRole("link", { name: "MV.005.A" }).click();
      await page.getByRole("heading", { name: "Mordanvik › MV.005.A" }).waitFor();
      await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));

      await demo.goAway();
      await page.reload();
      const bar = page.getByText("The program does not answer.");
      await bar.waitFor();
      expect(await page.getByRole("status").filter({ has: bar }).textContent()).toMatch(
        /You see what it last said, .*Changes are refused/,
      );
      await page.getByRole("heading", { name: "Mordanvik › MV.005.A" }).waitFor();
      expect(await axeFindings(page)).toEqual([]);

      await page.getByRole("button", { name: /^Change mass/ }).click();
      const field = page.getByRole("textbox", { name: "mass" });
      await field.fill("0.11");
      await field.press("Enter");
      await page
        .getByRole("alert")
        .getByText(/Nothing was changed/)
        .waitFor();
      expect(await field.inputValue()).toBe("0.11");

      // Other pages that were looked at open too, from kept files and kept answers.
      await page.getByRole("link", { name: "Crossing", exact: true }).click();
      await page.getByRole("heading", { name: "The kit, and why" }).waitFor();
      // What was never asked is said to be unknown, not made up.
      await page.goto(`${demo.address}/#/find?text=never-asked-before`);
      await page
        .getByRole("alert")
        .getByText(/was not looked at before/)
        .waitFor();

      await demo.comeBack();
      await page.getByRole("button", { name: "Try again" }).first().click();
      await bar.waitFor({ state: "detached" });
      await page.context().close();
    }, 120_000);
  },
);
