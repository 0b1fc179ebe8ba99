import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import type { Server } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildApp } from "../../api/http/build-app.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import {
  axeFindings,
  buildScreen,
  hasChromium,
  mustRun,
  openBrowser,
  openPage,
  whySkipped,
} from "./open-browser.ts";

/** A list as people keep it: a title, a heading nobody declared (Wotsit), a part number a spreadsheet spoilt. */
const list = [
  "Stores and gear of the Curlew, autumn;;;;;;;;;;;",
  "Vessel;Position;Maker;Model;Category;Function;Tier;Part no.;Wotsit;Qty;How often;Price",
  "Curlew;Bilge pump forward;Tholepin;Lift 900;bilge pump;pump the bilge;safety;00471-K;Diaphragm, rubber;2;often;12.50 EUR",
  "Curlew;Bilge pump forward;Tholepin;Lift 900;bilge pump;pump the bilge;safety;00472-K;Flap valve;4;now and then;3.20 EUR",
  "Curlew;Bilge pump aft;Tholepin;Lift 900;bilge pump;pump the bilge;safety;00471-K;Diaphragm, rubber;2;often;12.50 EUR",
  "Curlew;Primary winch port;Brasswick;B 40;winch;trim the headsail;passage;0099A;Pawl;4;now and then;6.75 EUR",
  "Curlew;Primary winch port;Brasswick;B 40;winch;trim the headsail;passage;1.23E+11;Pawl spring;8;often;0.90 EUR",
].join("\r\n");

const laptop = { width: 1366, height: 768 };
const hasPdfReader = (() => {
  try {
    execFileSync("pdftotext", ["-v"], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
})();

/** Drops a file on the page's place for files, as the desktop would hand it to the browser. */
async function dropFile(page: Page, folder: string, name: string, text: string): Promise<void> {
  const file = join(folder, name);
  writeFileSync(file, text);
  const box = await page.getByText("Drop a CSV file here").boundingBox();
  if (box === null) throw new Error("there is no place to drop a file");
  const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  const devTools = await page.context().newCDPSession(page);
  const copying = 1;
  for (const type of ["dragEnter", "dragOver", "drop"] as const)
    await devTools.send("Input.dispatchDragEvent", {
      type,
      ...at,
      data: { items: [], files: [file], dragOperationsMask: copying },
    });
}

describe.skipIf(!hasChromium && !mustRun)(
  `from a dropped file to the printed kit (${hasChromium ? "Chromium found" : whySkipped})`,
  () => {
    let browser: Browser;
    let store: GraphStore;
    let server: Server;
    let address = "";
    let screen = "";
    let folder = "";
    const reported: unknown[] = [];
    beforeAll(async () => {
      browser = await openBrowser();
      folder = mkdtempSync(join(tmpdir(), "sparewright-journey-"));
      screen = buildScreen();
      store = await openStore({ db: join(folder, "graph.sqlite"), env: {} });
      const app = buildApp({
        store,
        now: () => new Date("2026-11-20T12:00:00Z"),
        uiFolder: screen,
        report: (error) => reported.push(error),
      });
      server = await new Promise((resolve) => {
        const listening = app.listen(0, "127.0.0.1", () => resolve(listening));
      });
      const bound = server.address();
      if (bound === null || typeof bound === "string") throw new Error("no port");
      address = `http://127.0.0.1:${bound.port}`;
    });
    afterAll(async () => {
      await browser?.close();
      server?.closeAllConnections();
      server?.close();
      await store?.close();
      if (folder !== "") rmSync(folder, { recursive: true, force: true });
      if (screen !== "") rmSync(join(screen, ".."), { recursive: true, force: true });
    });

    it("imports with a column mapped by hand, plans, explains, prints, and undoes", async () => {
      const { page, complaints } = await openPage(browser, laptop);
      const main = page.getByRole("main");

      // An empty program says what to do first.
      await page.goto(address);
      await page.getByRole("link", { name: "Import a first list" }).click();

      await page
        .getByRole("heading", { name: "What is in this file, and what would it change?" })
        .waitFor();
      await dropFile(page, folder, "curlew.csv", list);
      await page.getByRole("heading", { name: "What it would change" }).waitFor();
      expect(await main.textContent()).toContain("1.23E+11");
      expect(await axeFindings(page)).toEqual([]);

      // The heading nobody declared is kept, not guessed; a person maps it.
      const column = page.getByRole("row", { name: /^Wotsit/ });
      await column.getByText("kept only").waitFor();
      await column.getByRole("button").click();
      await page.getByRole("option", { name: "Part: description" }).click();
      await column.getByText("by hand").waitFor();

      await page.getByRole("button", { name: "Take in 4 rows" }).click();
      await page.getByRole("button", { name: "Undo this import" }).waitFor();
      expect(await axeFindings(page)).toEqual([]);

      // The kit for a crossing of 30 days.
      await page.getByRole("link", { name: "What must we carry?" }).click();
      await page.getByRole("heading", { name: "The kit, and why" }).waitFor();
      const days = page.getByRole("textbox", { name: "Days at longest" });
      await days.fill("30");
      await days.press("Enter");
      await expect.poll(() => page.url()).toContain("longest=30");
      await page.getByText(/30 at longest/).waitFor();

      // The mapped column is the description beside the number, kept to the letter; its line says why.
      const why = page.getByRole("button", { name: "Why 00471-K Diaphragm, rubber" });
      await why.click();
      const reasons = page.getByRole("table", { name: "Gear that asks for 00471-K" });
      await reasons.waitFor();
      expect(await reasons.textContent()).toMatch(/assumed/);
      expect(
        await page.getByRole("region", { name: "Read with every kit" }).textContent(),
      ).toContain("not a statement of compliance");
      expect(await axeFindings(page)).toEqual([]);

      // On paper: the kit and its cautions, none of the controls.
      const pdf = await page.pdf({ preferCSSPageSize: true });
      expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
      if (hasPdfReader) {
        const file = join(folder, "kit.pdf");
        writeFileSync(file, pdf);
        const paper = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
        expect(paper).toContain("00471-K");
        expect(paper).toContain("Diaphragm, rubber");
        expect(paper).toContain("Read with every kit");
        expect(paper).toMatch(/not a statement of compliance/i);
        expect(paper).toMatch(/1 ?\/ ?\d/);
        expect(paper).not.toContain("Days expected");
        expect(paper).not.toContain("Keep small");
        expect(execFileSync("pdfinfo", [file], { encoding: "utf8" })).toMatch(/Page size:.*A4/);
      }

      // How alike, and back out again.
      await page.getByRole("link", { name: "Commonality" }).click();
      await page.getByRole("heading", { name: "Which models share which parts" }).waitFor();
      expect(await axeFindings(page)).toEqual([]);
      await page.getByRole("radio", { name: "night" }).press("Space");
      await expect.poll(() => page.locator("html").getAttribute("data-scheme")).toBe("night");
      expect(await axeFindings(page)).toEqual([]);
      await page.getByRole("link", { name: "Import" }).click();
      await page.getByRole("button", { name: /^Undo curlew.csv/ }).click();
      await page.getByText(/^undone \d/).waitFor();
      await page.getByRole("link", { name: "Overview" }).click();
      await page.getByRole("link", { name: "Import a first list" }).waitFor();

      expect(complaints).toEqual([]);
      expect(reported).toEqual([]);
      await page.context().close();
    }, 90_000);

    it("leads from an import to the printed kit by keyboard alone", async () => {
      const { page, complaints } = await openPage(browser, laptop);
      await page.addInitScript(() => {
        window.print = () => {
          document.documentElement.dataset["printed"] = "yes";
        };
      });
      // Listened for from the start: the browser hands choosers over only once somebody has asked for them.
      page.on("filechooser", (chooser) => {
        void chooser.setFiles({
          name: "curlew.csv",
          mimeType: "text/csv",
          buffer: Buffer.from(list),
        });
      });
      await page.goto(address);
      await page.getByRole("heading", { level: 1 }).waitFor();
      /** Presses Tab until the wanted thing has the focus, as someone without a mouse would. */
      const tabTo = async (wanted: Locator) => {
        await wanted.waitFor();
        for (let presses = 0; presses < 120; presses++) {
          await page.keyboard.press("Tab");
          if (await wanted.evaluate((element) => element === document.activeElement)) return;
        }
        throw new Error("not reached in 120 presses of Tab");
      };
      await tabTo(page.getByRole("link", { name: "Import a first list" }));
      await page.keyboard.press("Enter");
      await tabTo(page.getByRole("button", { name: "Choose a file" }));
      await page.keyboard.press("Enter");
      await tabTo(page.getByRole("button", { name: /^Take in \d+ rows/ }));
      await page.keyboard.press("Enter");
      await tabTo(page.getByRole("link", { name: "What must we carry?" }));
      await page.keyboard.press("Enter");
      await page.getByRole("heading", { name: "The kit, and why" }).waitFor();
      await tabTo(page.getByRole("button", { name: "Print" }));
      await page.keyboard.press("Enter");
      await expect.poll(() => page.locator("html").getAttribute("data-printed")).toBe("yes");
      // The skip link leads past the masthead at the first press on any page.
      await page.reload();
      await page.getByRole("heading", { name: "The kit, and why" }).waitFor();
      await page.keyboard.press("Tab");
      await page.keyboard.press("Enter");
      expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("MAIN");
      expect(complaints).toEqual([]);
      await page.context().close();
    }, 90_000);
  },
);
