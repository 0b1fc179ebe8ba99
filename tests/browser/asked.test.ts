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
  },
);
