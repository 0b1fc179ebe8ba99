import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import jsQr from "jsqr";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { hasChromium, mustRun, openBrowser, openPage, whySkipped } from "./open-browser.ts";
import { type DemoScreen, openDemoScreen, startLimit } from "./open-demo-screen.ts";

const laptop = { width: 1366, height: 768 };
const hasPdfReader = (() => {
  try {
    execFileSync("pdftotext", ["-v"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();

/** Sets what a reader would have set under Settings, before the page opens. */
const prefer = (page: Page, preferences: Readonly<Record<string, unknown>>) =>
  page.addInitScript(
    (text) => window.localStorage.setItem("sparewright.preferences", text),
    JSON.stringify(preferences),
  );

describe.skipIf((!hasChromium || !hasPdfReader) && !mustRun)(
  `paper from Chromium (${hasChromium ? (hasPdfReader ? "found" : "no pdftotext") : whySkipped})`,
  () => {
    let browser: Browser;
    let demo: DemoScreen;
    let folder = "";
    beforeAll(async () => {
      browser = await openBrowser();
      demo = await openDemoScreen();
      folder = mkdtempSync(join(tmpdir(), "sparewright-paper-"));
    }, startLimit);
    afterAll(async () => {
      await browser?.close();
      await demo?.stop();
      if (folder !== "") rmSync(folder, { recursive: true, force: true });
    });

    /** The page as a PDF, its text page by page and its size. */
    async function printed(page: Page) {
      const file = join(folder, "page.pdf");
      writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
      const text = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
      const facts = execFileSync("pdfinfo", [file], { encoding: "utf8" });
      return { pages: text.split("\f").slice(0, -1), facts };
    }

    it("gives each locker its sheet, first to use first, with cautions, numbers of pages and a date", async () => {
      const { page } = await openPage(browser, laptop);
      await page.goto(`${demo.address}/#/lockers`);
      await page.getByRole("link", { name: /^Engine room store/ }).click();
      await page.getByText(/lie in Umberwhist › Engine room store/).waitFor();
      const { pages, facts } = await printed(page);
      expect(facts).toMatch(/Page size:.*A4/);
      const sheets = pages.filter((text) => /Umberwhist › Engine room store › Bin \d/.test(text));
      expect(sheets.length).toBeGreaterThanOrEqual(3);
      for (const sheet of sheets) expect(sheet).toMatch(/Printed 20 Nov 2026/);
      expect(pages.at(-1)).toMatch(/not a statement of compliance/i);
      expect(pages[0]).toMatch(new RegExp(`1 ?/ ?${pages.length}`));
      expect(pages.join()).toContain("MV.005.A");
      expect(pages.join()).not.toMatch(/Print the sheets|Add a locker|Put something into/);
      const dates = [...(sheets.join().matchAll(/\d{1,2} [A-Z][a-z]{2} 20\d\d/g) ?? [])];
      expect(dates.length).toBeGreaterThan(3);
      await page.context().close();
    }, 90_000);

    it("prints the commonality report on Letter where that is set, without its controls", async () => {
      const { page } = await openPage(browser, laptop);
      await prefer(page, { paper: "Letter" });
      await page.goto(`${demo.address}/#/commonality`);
      await page.getByRole("heading", { name: "Which models share which parts" }).waitFor();
      const { pages, facts } = await printed(page);
      expect(facts).toMatch(/Page size:.*letter/i);
      const text = pages.join();
      expect(text).toMatch(/Reckoned and printed/);
      expect(text).toMatch(/What standardising would save/);
      expect(text).not.toMatch(/Print the report|Suppose we replaced|Put it back/);
      await page.context().close();
    }, 90_000);

    for (const [paper, size] of [
      ["A4", /Page size:.*A4/],
      ["Letter", /Page size:.*letter/i],
    ] as const)
      it(`prints the kit on ${paper} with its headings on every page, its cautions, and no controls`, async () => {
        const { page } = await openPage(browser, laptop);
        await prefer(page, { paper });
        await page.goto(`${demo.address}/#/crossing`);
        await page.getByRole("heading", { name: "The kit, and why" }).waitFor();
        const { pages, facts } = await printed(page);
        expect(facts).toMatch(size);
        const lists = pages.filter((text) => /(Chandelorne|Knarrhold) .*\d+ days/s.test(text));
        expect(lists.length).toBeGreaterThan(3);
        for (const text of lists) expect(text).toMatch(/Part\s+Carry\s+Aboard\s+Buy/);
        expect(pages.join()).toMatch(/not a statement of compliance/i);
        expect(pages.join()).not.toMatch(/Ports of call|What to order|Caps on what is bought: /);
        await page.context().close();
      }, 90_000);

    it("prints the voyage's lists port by port with their cautions, without its controls", async () => {
      const { page } = await openPage(browser, laptop);
      await prefer(page, { paper: "Letter" });
      await page.goto(`${demo.address}/#/voyage`);
      await page.getByRole("heading", { name: "How far the pieces must last" }).waitFor();
      const { pages, facts } = await printed(page);
      expect(facts).toMatch(/Page size:.*letter/i);
      const text = pages.join();
      expect(text).toMatch(/Leaving Mindelo for Praia, 10 Jan 2027/);
      expect(text).toMatch(/Nobody known supplies in Praia/);
      expect(text).toMatch(/not a statement of compliance/i);
      expect(text).not.toMatch(/Print the lists|Call before|Back to the crossing/);
      await page.context().close();
    }, 90_000);

    it("prints labels at their sheet's size, whose codes open their locker", async () => {
      const { page } = await openPage(browser, laptop);
      await prefer(page, { labelAddress: "http://192.0.2.7:4747" });
      await page.goto(`${demo.address}/#/labels`);
      await page.getByText(/^31 labels on 2 sheets of A4/).waitFor();
      const code = page.getByRole("img", { name: "Code of Umberwhist › Bridge › Drawer" });
      await code.scrollIntoViewIfNeeded();
      const png = (await code.screenshot({ scale: "css" })).toString("base64");
      const pixels = await page.evaluate(async (data) => {
        const picture = new Image();
        picture.src = `data:image/png;base64,${data}`;
        await picture.decode();
        const canvas = document.createElement("canvas");
        canvas.width = picture.width * 3;
        canvas.height = picture.height * 3;
        const pen = canvas.getContext("2d");
        if (pen === null) throw new Error("no canvas");
        pen.imageSmoothingEnabled = false;
        pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
        const image = pen.getImageData(0, 0, canvas.width, canvas.height);
        return { data: [...image.data], width: canvas.width, height: canvas.height };
      }, png);
      // Read by a decoder that knows nothing of the encoder.
      const read = jsQr(Uint8ClampedArray.from(pixels.data), pixels.width, pixels.height);
      expect(read?.data).toMatch(/^http:\/\/192\.0\.2\.7:4747\/#\/lockers\?locker=Locker%3A/);
      const address = (read?.data ?? "").replace("http://192.0.2.7:4747", demo.address);

      const { pages, facts } = await printed(page);
      expect(facts).toMatch(/Page size:.*A4/);
      expect(facts).toMatch(/Pages:\s+2/);
      expect(pages.join()).toContain("Drawer");
      expect(pages.join()).not.toContain("Sheet of labels");

      await page.goto(address);
      await page.getByText(/in Umberwhist › Bridge › Drawer/).waitFor();
      await page.context().close();
    }, 90_000);
  },
);
