import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
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
const hasPdfReader = (() => {
  try {
    execFileSync("pdftotext", ["-v"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();

interface Sheet {
  readonly supplier: { readonly name: string };
  readonly contact: string;
  readonly lines: readonly { readonly supplierCode: string; readonly parcel: string }[];
}

describe.skipIf(!hasChromium && !mustRun)(
  `ordering in Chromium (${hasChromium ? "found" : whySkipped})`,
  () => {
    let browser: Browser;
    let demo: DemoScreen;
    let folder = "";
    beforeAll(async () => {
      browser = await openBrowser();
      demo = await openDemoScreen();
      folder = mkdtempSync(join(tmpdir(), "sparewright-order-"));
    }, startLimit);
    afterAll(async () => {
      await browser?.close();
      await demo?.stop();
      if (folder !== "") rmSync(folder, { recursive: true, force: true });
    });

    const asked = async (path: string, body?: unknown) => {
      const response = await fetch(`${demo.address}${path}`, {
        ...(body === undefined
          ? {}
          : {
              method: "POST",
              headers: { "content-type": "application/json" },
              body: JSON.stringify(body),
            }),
      });
      return response.json() as Promise<unknown>;
    };
    const lots = async () =>
      ((await asked("/api/records?label=StockLot&limit=1")) as { total: number }).total;

    it("counts the terms typed, keeps the orders, stows what came, and takes both back", async () => {
      const { page, complaints } = await openPage(browser, laptop);
      page.setDefaultTimeout(12_000);
      const { sheets } = (await asked("/api/order", {})) as { sheets: readonly Sheet[] };
      const supplier = sheets[0]?.supplier.name ?? "";
      await page.goto(`${demo.address}/#/order`);
      const sheet = page.getByRole("region", { name: supplier, exact: true });
      await sheet.waitFor();
      expect(await sheet.textContent()).toContain(sheets[0]?.contact);

      // Terms: a fault stands in its cell, what was typed stays; then a duty no other supplier asks.
      const duty = page.getByRole("textbox", { name: `Duty, %: ${supplier}` });
      await duty.fill("a lot");
      await duty.press("Enter");
      await page.getByText("Write a number, as 12.50.").waitFor();
      expect(await duty.inputValue()).toBe("a lot");
      await duty.fill("");
      await duty.press("Enter");
      const charge = page.getByRole("textbox", { name: `Delivery charge: ${supplier}` });
      await charge.fill("12,50");
      await charge.press("Enter");
      await sheet.getByText(/delivery 12\.50/).waitFor();
      expect(await page.getByText(/No delivery charges, least orders or duty/).count()).toBe(0);

      // Terms in money without a rate are refused beside that currency; the order before stays.
      const money = page.getByRole("textbox", { name: `Currency: ${supplier}` });
      await money.fill("SEK");
      await money.press("Enter");
      await page
        .getByRole("row", { name: supplier })
        .getByText(/no rate was given/)
        .waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await money.fill("EUR");
      await money.press("Enter");
      await expect.poll(() => page.getByText(/no rate was given/).count()).toBe(0);

      // Needed before it is ordered: said beside the day.
      const needed = page.getByRole("textbox", { name: /^Needed aboard by/ });
      await needed.fill("1 Nov 2026");
      await needed.press("Enter");
      await page.getByText(/cannot be needed before they are ordered/).waitFor();
      await needed.fill("");
      await needed.press("Enter");
      await expect.poll(() => page.url()).not.toContain("needed=");
      await expect.poll(() => page.getByText(/cannot be needed before/).count()).toBe(0);

      // The terms outlast a reload, on this device.
      await page.reload();
      await sheet.getByText(/delivery 12\.50/).waitFor();

      if (hasPdfReader) {
        const file = join(folder, "order.pdf");
        writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
        const paper = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
        const flat = paper.replaceAll(/\s+/g, " ");
        for (const { supplier: of, contact, lines } of sheets) {
          expect(flat).toContain(of.name);
          expect(flat).toContain(contact);
          for (const line of lines) expect(flat).toContain(line.supplierCode);
          expect(flat).toContain("ship's spares, worth");
        }
        expect(flat).toMatch(/not a statement of compliance/i);
        expect(flat).not.toMatch(/Keep the|What each supplier asks|Orders kept|Needed aboard by/);
        expect(execFileSync("pdfinfo", [file], { encoding: "utf8" })).toMatch(/Page size:.*A4/);
      }

      const before = await lots();
      await page.getByRole("button", { name: /^Keep the/ }).click();
      const bar = page.getByRole("region", { name: "Last change" });
      await bar.getByText(/orders? kept/i).waitFor();
      const kept = page.getByRole("region", { name: "Orders kept" }).first();
      const row = kept.getByRole("row", { name: new RegExp(`2026-11-20 .*${supplier}`) }).first();
      await row.getByText("kept, not yet sent").waitFor();
      await row.getByRole("button", { name: /^Open/ }).click();

      await kept.getByRole("button", { name: "It was sent to the supplier" }).click();
      await row.getByText("sent to the supplier").waitFor();
      await kept.getByRole("button", { name: /Put into/ }).click();
      await page.getByRole("option", { name: /› / }).first().click();
      for (const date of await kept.getByRole("textbox", { name: /^Use by/ }).all()) {
        await date.fill("31 Jan 2031");
        await date.press("Enter");
      }
      expect(await axeFindings(page)).toEqual([]);
      await kept.getByRole("button", { name: "It has come" }).click();
      await kept.getByRole("region", { name: /^What went where/ }).waitFor();
      await row.getByText("has come").waitFor();
      expect(await kept.getByText(/do not count as aboard/).count()).toBe(0);
      expect(await lots()).toBeGreaterThan(before);

      await bar.getByRole("button", { name: "Undo" }).click();
      await row.getByText("sent to the supplier").waitFor();
      expect(await lots()).toBe(before);

      // The keeping is older than the last change: Settings takes it back, after the sending that stands on it.
      await page.goto(`${demo.address}/#/settings`);
      await page
        .getByRole("button", { name: /^Undo .*2026-11-20 / })
        .nth(1)
        .click();
      await page
        .getByText(/^undone /)
        .nth(1)
        .waitFor();
      await page.getByRole("button", { name: /^Undo \d+ orders? for .* kept/ }).click();
      await page.goto(`${demo.address}/#/order`);
      await sheet.waitFor();
      await page.getByText(/still to come\. Open one/).waitFor();
      expect(await row.count()).toBe(0);
      // The refusals above are the browser's own report of answers 4xx.
      expect(complaints.filter((line) => !/status of 4\d\d/.test(line))).toEqual([]);
      expect(demo.reported).toEqual([]);
      await page.context().close();
    }, 120_000);
  },
);
