import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { cutText } from "./cut-text.ts";
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
const narrow = { width: 320, height: 640 };
/** Every answer solves a kit for each make, in the process of these tests. */
const patience = 90_000;

/** A parts list as it comes: a column nobody declared, a number in words, commas for decimals. */
const parts = [
  "Part no;Description;Qty;Failure rate;Per;Colour",
  "OX-001;Pawl;4;0,02;1000 ops;red",
  "OX-002;Spring;8;0,05;1000 ops;red",
  "OX-003;Bearing;two;0,01;1000 ops;red",
].join("\n");
const offers = [
  "Supplier;Part no;Price;Currency;Lead time",
  "Nordquay;OX-001;12,50;EUR;3 weeks",
  "Nordquay;OX-002;1,20;EUR;10 days",
].join("\n");

const widthOf = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth);
const box = (page: Page, name: string | RegExp) =>
  page.getByRole("textbox", { name, exact: typeof name === "string" });

async function type(page: Page, name: string | RegExp, text: string): Promise<void> {
  await box(page, name).fill(text);
  await box(page, name).press("Enter");
}

const hasPdfReader = (() => {
  try {
    execFileSync("pdftotext", ["-v"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();

describe.skipIf(!hasChromium && !mustRun)(
  `which make to buy (${hasChromium ? "Chromium found" : whySkipped})`,
  () => {
    let browser: Browser;
    let demo: DemoScreen;
    let folder = "";
    beforeAll(async () => {
      browser = await openBrowser();
      demo = await openDemoScreen();
      folder = mkdtempSync(join(tmpdir(), "sparewright-choosing-"));
    }, startLimit);
    afterAll(async () => {
      await browser?.close();
      await demo?.stop();
      if (folder !== "") rmSync(folder, { recursive: true, force: true });
    });

    /** A new winch, as far as the first answer. */
    const askForWinch = async (page: Page) => {
      await page.goto(`${demo.address}/#/choosing`);
      await page.getByRole("radio", { name: "For a position that is new" }).press("Space");
      await page.getByRole("button", { name: /Kind of gear/ }).click();
      await page.getByRole("option", { name: /^winch/ }).click();
      await page.getByRole("heading", { name: "Side by side" }).waitFor();
    };
    const typeMake = async (page: Page, designation: string, price: string) => {
      await page.getByRole("button", { name: "Type in a make" }).click();
      await box(page, "Maker").fill("Ombrelux");
      await box(page, "What its maker calls it").fill(designation);
      await box(page, "Price of one").fill(price);
    };
    const weigh = (page: Page) =>
      page.getByRole("button", { name: "Weigh it", exact: true }).click();

    for (const size of [laptop, phone])
      it(`weighs a make typed in with its lists for a new position, and keeps it: ${size.width} px`, async () => {
        const { page, complaints } = await openPage(browser, size);
        page.setDefaultTimeout(patience);
        const load = /^Safe working load/;
        if (size === phone) {
          await page.goto(
            `${demo.address}/#/choosing?for=new&kind=winch&name=Staysail+winch&operations=12&needs=workingLoadKg:900`,
          );
        } else {
          await askForWinch(page);
          await type(page, "Position, by name", "Staysail winch");
          await type(page, "Operations a day", "12");
          await type(page, load, "lots");
          await page.getByText("Write a number.").waitFor();
          await type(page, load, "900");
        }
        await page.getByText(/Thornquay T40 ST.*safe working load is 700 kg/).waitFor();

        // Nothing is asked of a make without a name; a list says at once what was understood of it.
        await page.getByRole("button", { name: "Type in a make" }).click();
        await weigh(page);
        await page.getByText("Say who makes it.").waitFor();
        await page.getByRole("button", { name: "Leave it" }).click();
        await typeMake(page, "OX-1", "1500");
        const form = page.getByRole("form", { name: "A make typed in" });
        await form.getByRole("textbox", { name: load }).fill("1000");
        await box(page, "Its parts list, as CSV").fill(parts);
        await box(page, "Who sells its parts, as CSV").fill(offers);
        await form.getByText(/parts list of Ombrelux OX-1, 2 of 3 rows are taken/).waitFor();
        await form
          .getByRole("cell", { name: "“two”" })
          .or(form.getByText("two", { exact: true }))
          .first()
          .waitFor();
        await form.getByText(/offers list of Ombrelux OX-1, all 2 rows are taken/).waitFor();
        expect(await axeFindings(page)).toEqual([]);
        expect(await widthOf(page)).toBeLessThanOrEqual(size.width);
        await weigh(page);

        const money = page.getByRole("table", { name: "Makes side by side: money" });
        await money.getByRole("row", { name: /Ombrelux OX-1.*typed in/ }).waitFor();
        await page
          .getByText(/“?Staysail winch"? on Quorrelind the Ombrelux OX-1 makes the cheapest boat/)
          .waitFor();
        await page
          .getByText(/1 of 3 rows of the parts list of the Ombrelux OX-1 could not be read and ask/)
          .waitFor();
        const spares = page.getByRole("table", { name: "Makes side by side: spares and supply" });
        const row = spares.getByRole("row", { name: /Ombrelux OX-1/ });
        await row.getByRole("button", { name: "Why: New parts, Ombrelux OX-1" }).click();
        await page
          .getByRole("dialog")
          .getByText(/2 parts more/)
          .waitFor();
        await page.keyboard.press("Escape");
        // A make without a parts list has an unknown kit, never none.
        expect(await money.getByRole("row", { name: /Skarrowend SK-44/ }).textContent()).toContain(
          "unknown",
        );
        await money.getByRole("button", { name: "More about Ombrelux OX-1, typed in" }).click();
        await page
          .getByRole("table", { name: "Price at which Ombrelux OX-1 breaks even" })
          .waitFor();
        await page.getByRole("region", { name: "Read with every choice" }).waitFor();
        expect(await axeFindings(page)).toEqual([]);
        expect(await widthOf(page)).toBeLessThanOrEqual(size.width);

        // The address holds it all: a reload, and another browser, land in the same place.
        await page.reload();
        await money.getByRole("row", { name: /Ombrelux OX-1/ }).waitFor();
        const other = await openPage(browser, narrow);
        await other.page.goto(page.url());
        await other.page
          .getByRole("table", { name: "Makes side by side: money" })
          .getByRole("row", { name: /Ombrelux OX-1/ })
          .waitFor();
        expect(await cutText(other.page)).toEqual([]);
        expect(await widthOf(other.page)).toBeLessThanOrEqual(narrow.width);
        await other.page.context().close();

        // Edited, taken out, put back.
        await page.getByRole("button", { name: "Edit Ombrelux OX-1" }).click();
        expect(await box(page, "Its parts list, as CSV").inputValue()).toBe(parts);
        await box(page, "Price of one").fill("1400");
        await page.getByRole("button", { name: "Weigh it as edited" }).click();
        await money
          .getByRole("button", { name: /^Why: A unit/ })
          .filter({ hasText: "1 400.00" })
          .waitFor();
        await page.getByRole("button", { name: "Take out Ombrelux OX-1" }).click();
        await money.getByRole("row", { name: /Ombrelux OX-1/ }).waitFor({ state: "detached" });
        await page.getByRole("button", { name: "Put it back" }).click();
        await money.getByRole("row", { name: /Ombrelux OX-1/ }).waitFor();
        expect([...complaints, ...other.complaints]).toEqual([]);
        await page.context().close();
      }, 400_000);

    it("keeps a long list in the browser under the name in the address, takes files, prints and saves", async () => {
      const { page, complaints } = await openPage(browser, laptop, "night");
      page.setDefaultTimeout(patience);
      await askForWinch(page);
      await typeMake(page, "OX-9", "1500");
      const long = [
        "Part no,Description,Qty,Failure rate,Per",
        ...Array.from(
          { length: 120 },
          (_, at) => `OX-9${at},Rückholfeder number ${at},1,0.001,year`,
        ),
      ].join("\n");
      const file = join(folder, "ox-9.csv");
      // As a spreadsheet of the West saves it: ü is one byte there.
      writeFileSync(file, Buffer.from(long, "latin1"));
      const chooser = page.waitForEvent("filechooser");
      await page.getByRole("button", { name: "Choose a file for: Its parts list, as CSV" }).click();
      await (await chooser).setFiles(file);
      await expect.poll(() => box(page, "Its parts list, as CSV").inputValue()).toBe(long);
      await page.getByText(/all 120 rows are taken/).waitFor();
      await weigh(page);
      const money = page.getByRole("table", { name: "Makes side by side: money" });
      await money.getByRole("row", { name: /Ombrelux OX-9/ }).waitFor();
      expect(page.url()).toMatch(/makes=(~|%7E)\w+/);
      expect(page.url().length).toBeLessThan(400);
      await page.reload();
      await money.getByRole("row", { name: /Ombrelux OX-9/ }).waitFor();
      const other = await openPage(browser, laptop);
      await other.page.goto(page.url());
      await other.page
        .getByText("Type it in again here, or open this address where it was typed.")
        .waitFor();
      await other.page.context().close();

      const saved = page.waitForEvent("download");
      await page.getByRole("button", { name: "Save Gear and kit by make as CSV" }).click();
      const csv = readFileSync(await (await saved).path(), "utf8");
      expect(csv).toContain("Ombrelux OX-9");
      if (hasPdfReader) {
        const pdf = join(folder, "choice.pdf");
        writeFileSync(pdf, await page.pdf({ preferCSSPageSize: true }));
        const paper = execFileSync("pdftotext", ["-layout", pdf, "-"], { encoding: "utf8" });
        expect(paper).toContain("Ombrelux OX-9");
        expect(paper).toContain("Read with every choice");
        expect(paper).toMatch(/not a statement of compliance/i);
        expect(paper).not.toContain("Type in a make");
        expect(paper).not.toContain("Kind of gear");
      }
      expect([...complaints, ...other.complaints]).toEqual([]);
      await page.context().close();
    }, 400_000);

    it("says in clear words what is missing: no make fits, no rate, no list that can be read", async () => {
      const { page, complaints } = await openPage(browser, laptop);
      page.setDefaultTimeout(patience);
      await askForWinch(page);
      await type(page, /^Safe working load/, "90000");
      await page.getByText(/no make meets the needs/).waitFor();
      expect(await page.getByRole("table", { name: /side by side/ }).count()).toBe(0);
      await type(page, /^Safe working load/, "");
      await page
        .getByText(/Prices in GBP cannot be set against EUR without a rate/)
        .first()
        .waitFor();
      await type(page, "Worth of one of another currency", "about 1.2");
      await page
        .getByText("Write it as GBP 1.17, one after another with commas between.")
        .waitFor();
      await type(page, "Worth of one of another currency", "GBP 1.17");
      await page.getByText(/Prices in GBP cannot/).waitFor({ state: "detached" });

      // Yen have no decimals (ISO 4217), so an amount with them is refused beside its field.
      await typeMake(page, "OX-2", "1500.50");
      await box(page, "in, three letters").fill("JPY");
      await weigh(page);
      await page.getByText("JPY has no decimals: write a whole number.").waitFor();
      await box(page, "in, three letters").fill("BHD");
      // Nothing is weighed while a figure is none: the hand is led back to it.
      const form = page.getByRole("form", { name: "A make typed in" });
      const rope = form.getByRole("textbox", { name: /^Largest rope taken/ });
      await rope.fill("thick");
      await weigh(page);
      await form.getByText("Write a number.").waitFor();
      await expect.poll(() => rope.evaluate((one) => one === document.activeElement)).toBe(true);
      await rope.fill("");
      await box(page, "Its parts list, as CSV").fill("hello\nworld");
      await page
        .getByRole("alert")
        .getByText(/The parts list of Ombrelux OX-2: .*part number/)
        .waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await page.getByRole("button", { name: "Its parts list, as CSV: Empty it" }).click();
      await page.getByRole("alert").waitFor({ state: "detached" });
      await weigh(page);
      await page
        .getByText(/1.500\.500 BHD; no parts list, so its kit is unknown, not nothing/)
        .waitFor();
      await page
        .getByText(/Prices in BHD cannot be set against EUR without a rate/)
        .first()
        .waitFor();
      // A refusal is no fault of the page: the browser itself reports the unreadable list's status.
      expect(complaints.filter((text) => !/status of 400/.test(text))).toEqual([]);
      await page.context().close();
    }, 400_000);
  },
);
