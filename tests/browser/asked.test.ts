import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { describeScreen } from "./describe-screen.ts";
import { axeFindings, openPage } from "./open-browser.ts";

const laptop = { width: 1366, height: 768 };
const phone = { width: 390, height: 844 };
const patience = 90_000;

const widthOf = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth);

describeScreen("answers that are asked for by a press", (screen) => {
  it("says what to keep and change, and asks anew when the budget changes", async () => {
    const { page, complaints } = await openPage(screen.browser, phone);
    await page.goto(
      `${screen.demo.address}/#/choosing?budget=20000&years=10&supplieryear=600&kityear=300`,
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
    const { page, complaints } = await openPage(screen.browser, laptop, "night");
    const asked: string[] = [];
    page.on("request", (request) => asked.push(new URL(request.url()).pathname));
    await page.goto(`${screen.demo.address}/#/crossing`);
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

  it("keeps a kit within caps, says what is lacking, and where each unit goes", async () => {
    const { page, complaints } = await openPage(screen.browser, phone);
    await page.goto(`${screen.demo.address}/#/crossing`);
    await page.getByText("Caps on what is bought: none").click();
    const money = page.getByRole("textbox", { name: /^Most money, EUR/ });
    await money.fill("500");
    await money.press("Enter");
    await expect.poll(() => page.url()).toContain("mostmoney=500EUR");
    await page
      .getByText(/^The safety tier alone needs .* EUR of money; the cap allows 500.00 EUR/)
      .waitFor({ timeout: patience });
    await page.getByText("What of the safety tier takes most of it:").waitFor();
    await page.getByRole("table", { name: "Caps on what is bought" }).waitFor();
    expect(await axeFindings(page)).toEqual([]);

    await money.fill("");
    await money.press("Enter");
    await page.getByRole("button", { name: /All that is bought must fit in/ }).click();
    await page.getByRole("option", { name: "Kartentisch" }).click();
    await page.getByText(/give its room or its load/).waitFor();
    const load = page.getByRole("textbox", { name: "Load, kg" });
    await load.fill("60");
    await load.press("Enter");
    const stow = page.getByRole("table", { name: "Units to stow, locker by locker" });
    await stow.waitFor({ timeout: patience });
    expect(await stow.getByRole("row").count()).toBeGreaterThan(10);
    await stow.getByText(/^Kartentisch: \d+ units$/).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    expect(await widthOf(page)).toBeLessThanOrEqual(phone.width);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 200_000);

  it("tells the kit at each departure, and asks anew when a port of call is put in", async () => {
    const { page, complaints } = await openPage(screen.browser, phone, "dusk");
    await page.goto(`${screen.demo.address}/#/voyage`);
    await page.getByText(/^Quorrelind sails Mindelo to Barbados, leaving Mindelo/).waitFor();
    await page.getByRole("img", { name: /^All \d+ pieces must last from Mindelo/ }).waitFor();
    await page.getByRole("button", { name: "Call at a port before Bridgetown" }).click();
    await page.getByText(/^A leg needs a port and its days/).waitFor();
    await page.getByRole("textbox", { name: "Leg 2, to" }).fill("Brest");
    const leg = page.getByRole("listitem").filter({ has: page.getByLabel("Leg 2, to") });
    await leg.getByRole("textbox", { name: "Days expected" }).fill("14");
    await leg.getByRole("textbox", { name: "Days in port" }).fill("40");
    await leg.getByRole("textbox", { name: "Country" }).fill("France");
    await leg.getByRole("textbox", { name: "Country" }).press("Enter");
    await page
      .getByRole("img", { name: /the others are topped up in Brest\.$/ })
      .waitFor({ timeout: patience });
    expect(page.url()).toContain("Brest%7E14");
    await page.getByRole("table", { name: "Kit when leaving Brest" }).waitFor();
    const whole = page.getByRole("table", { name: /on the whole voyage$/ });
    await whole
      .getByRole("button", { name: /^Why: / })
      .first()
      .click();
    await page.getByText(/chances of the 3 departures, multiplied/).waitFor();
    await page.keyboard.press("Escape");
    expect(await axeFindings(page)).toEqual([]);
    expect(await widthOf(page)).toBeLessThanOrEqual(phone.width);
    const saved = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save the lists as CSV" }).click();
    expect((await saved).suggestedFilename()).toBe("voyage-kit.csv");
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 200_000);

  it("holds the kit to a list of one's own, kept in the browser, and says row by row what it cannot read", async () => {
    const { page } = await openPage(screen.browser, phone);
    await page.goto(`${screen.demo.address}/#/crossing`);
    const section = page.getByRole("region", { name: /minimum list/ });
    await section.getByText("A minimum list of your own").click();
    await section.locator("input[type=file]").setInputFiles({
      name: "mine.csv",
      mimeType: "text/csv",
      buffer: Buffer.from(
        "Spare,Basis,Quantity,What it asks,Source,Gear\nimpeller,sometimes,2,Two impellers,Us,bilge pump\n",
      ),
    });
    await section.getByRole("button", { name: "Hold the kit against mine.csv" }).click();
    const faults = section.getByRole("table", { name: "What was not understood" });
    await faults.getByRole("row", { name: /^2 Basis must be one of ship, unit/ }).waitFor();
    expect(await axeFindings(page)).toEqual([]);

    await section
      .getByRole("textbox")
      .fill(
        "Spare,Basis,Quantity,What it asks,Source,Gear\nimpeller,unit,2,Two impellers,Us,bilge pump\n",
      );
    await section.getByRole("button", { name: "Keep what is pasted" }).click();
    await section.getByRole("button", { name: "Hold the kit against pasted list" }).click();
    const held = section.getByRole("table", { name: "pasted list" });
    await held.waitFor({ timeout: patience });
    await held.getByRole("button", { name: /^Why: Required/ }).click();
    await page.getByRole("dialog").getByText("What would change it").waitFor();
    await page.getByRole("dialog").getByRole("button", { name: "Close" }).click();
    await page.reload();
    await section.getByText("Your own list: pasted list").click();
    await section.getByRole("button", { name: "Forget pasted list" }).click();
    await section.getByRole("button", { name: "Hold the kit against minimum lists" }).waitFor();
    expect(await widthOf(page)).toBeLessThanOrEqual(phone.width);
    await page.context().close();
  }, 200_000);
});
