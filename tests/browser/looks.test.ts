import type { Browser, Locator, Page } from "playwright-core";
import { expect, it } from "vitest";
import { describeScreen } from "./describe-screen.ts";
import { firstScriptBytes } from "./first-scripts.ts";
import { axeFindings, openPage, schemes } from "./open-browser.ts";
import { pages } from "./pages.ts";

const sizes = [
  { name: "phone", width: 390, height: 844 },
  { name: "laptop", width: 1366, height: 768 },
] as const;

const csv = {
  name: "stores.csv",
  mimeType: "text/csv",
  buffer: Buffer.from("Vessel;Part no.;Description\nWherry;001-K;Pawl\n"),
};

/** Most green or blue found in any pixel of a picture, of 255. */
async function otherLight(browser: Browser, png: Buffer): Promise<number> {
  const page = await browser.newPage();
  const found = await page.evaluate(async (data) => {
    const picture = new Image();
    picture.src = `data:image/png;base64,${data}`;
    await picture.decode();
    const canvas = document.createElement("canvas");
    canvas.width = picture.width;
    canvas.height = picture.height;
    const pen = canvas.getContext("2d");
    if (pen === null) return 255;
    pen.drawImage(picture, 0, 0);
    const { data: light } = pen.getImageData(0, 0, canvas.width, canvas.height);
    let most = 0;
    for (let i = 0; i < light.length; i += 4)
      most = Math.max(most, light[i + 1] ?? 0, light[i + 2] ?? 0);
    return most;
  }, png.toString("base64"));
  await page.close();
  return found;
}

const go = async (page: Page, address: string, path: string, ready: string) => {
  await page.goto(`${address}/#/${path}`);
  await page.getByRole("heading", { name: ready }).waitFor();
};

describeScreen("the screen", (screen) => {
  for (const scheme of schemes)
    for (const size of scheme === "day" ? sizes : [sizes[1]])
      it(`has no axe finding, no complaint and no sideways scroll: ${scheme}, ${size.name}`, async () => {
        const { page, complaints } = await openPage(screen.browser, size, scheme);
        for (const { path, ready } of pages) {
          await go(page, screen.demo.address, path, ready);
          if (path === "import") {
            await page.locator("input[type=file]").setInputFiles(csv);
            await page.getByRole("heading", { name: "What it would change" }).waitFor();
          }
          if (path === "crossing")
            await page.getByRole("button", { name: /^Why / }).first().click();
          expect(await axeFindings(page), `${path}, ${scheme}, ${size.name}`).toEqual([]);
          const width = await page.evaluate(() => document.documentElement.scrollWidth);
          expect(width, `width of ${path}`).toBeLessThanOrEqual(size.width);
        }
        expect(complaints).toEqual([]);
        await page.context().close();
      }, 400_000);

  it("brings less than 250 kB of compressed script before the first page", () => {
    const bytes = firstScriptBytes(screen.demo.built);
    expect(bytes).toBeGreaterThan(50_000);
    expect(bytes).toBeLessThan(250_000);
  });

  it("gives off red light only at night, pictures and open lists included", async () => {
    const { page } = await openPage(screen.browser, sizes[1], "night");
    for (const { path, ready } of pages) {
      await go(page, screen.demo.address, path, ready);
      if (path === "import") {
        await page.locator("input[type=file]").setInputFiles(csv);
        await page.getByRole("heading", { name: "What it would change" }).waitFor();
      }
      expect(
        await otherLight(screen.browser, await page.screenshot({ fullPage: true })),
        path,
      ).toBe(0);
    }
    await go(page, screen.demo.address, "crossing", "The kit, and why");
    await page.getByRole("button", { name: /Vessel$/ }).click();
    await page.getByRole("option").first().waitFor();
    expect(await otherLight(screen.browser, await page.screenshot()), "an open list").toBe(0);
    await page.context().close();
  }, 240_000);

  it("goes back to the former question, and a shared address asks the same one", async () => {
    const { page } = await openPage(screen.browser, sizes[1]);
    await go(page, screen.demo.address, "crossing", "The kit, and why");
    const target = page.getByRole("textbox", { name: "Target, passage" });
    await target.fill("0.99");
    await target.press("Enter");
    await expect.poll(() => page.url()).toContain("passage=0.99");
    const shared = page.url();
    await page.goBack();
    await expect.poll(() => target.inputValue()).toBe("0.95");
    const other = await openPage(screen.browser, sizes[1]);
    await other.page.goto(shared);
    await expect
      .poll(() => other.page.getByRole("textbox", { name: "Target, passage" }).inputValue())
      .toBe("0.99");
    await other.page.context().close();
    await page.context().close();
  });

  it("lets the trade-off curve set the target, by keyboard and by pointer", async () => {
    const { page } = await openPage(screen.browser, sizes[1]);
    await go(page, screen.demo.address, "crossing", "The kit, and why");
    const curve = page.getByRole("slider", { name: "Kit on the passage curve" });
    const before = await curve.getAttribute("aria-valuetext");
    await curve.focus();
    await curve.press("ArrowRight");
    await curve.press("ArrowRight");
    await expect.poll(() => curve.getAttribute("aria-valuetext")).not.toBe(before);
    await curve.press("Enter");
    await expect.poll(() => page.url()).toMatch(/passage=0\.9/);
    const byKeys = page.url();
    const box = await curve.boundingBox();
    if (box === null) throw new Error("the curve has no place on the page");
    await page.mouse.click(box.x + box.width * 0.8, box.y + box.height * 0.2);
    await expect.poll(() => page.url()).not.toBe(byKeys);
    await page.context().close();
  });

  it("leads from the start to a part's reason by keyboard alone", async () => {
    const { page } = await openPage(screen.browser, sizes[1]);
    await go(page, screen.demo.address, "overview", "What needs attention");
    /** Presses Tab until the wanted thing has the focus, as someone without a mouse would. */
    const tabTo = async (wanted: Locator) => {
      for (let presses = 0; presses < 90; presses++) {
        await page.keyboard.press("Tab");
        if (await wanted.evaluate((element) => element === document.activeElement)) return;
      }
      throw new Error("not reached in 90 presses of Tab");
    };
    await tabTo(page.getByRole("link", { name: /pieces to buy/ }).first());
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "The kit, and why" }).waitFor();
    await tabTo(page.getByRole("slider", { name: "safety", exact: true }));
    await page.keyboard.press("ArrowRight");
    await expect.poll(() => page.url()).toContain("safety=0.993");
    const why = page.getByRole("button", { name: /^Why / }).first();
    await tabTo(why);
    await page.keyboard.press("Enter");
    await page.getByRole("table", { name: /^Gear that asks for / }).waitFor();
    expect(await why.getAttribute("aria-expanded")).toBe("true");
    await page.context().close();
  }, 60_000);

  it("names models and parts of the matrix by keyboard", async () => {
    const { page } = await openPage(screen.browser, sizes[1]);
    await go(page, screen.demo.address, "commonality", "Which models share which parts");
    await page.getByRole("button", { name: /^Thornquay T40 ST/ }).focus();
    const said = page.getByText(/shares parts with/);
    await said.waitFor();
    expect(await said.textContent()).toMatch(/^Thornquay T40 ST.*\d+ parts, shares parts with /);
    await page.keyboard.press("ArrowRight");
    await page.getByText(/: taken by /).waitFor();
    await page.keyboard.press("ArrowDown");
    await expect.poll(() => said.textContent()).toMatch(/^Thornquay T46 ST/);
    await page.context().close();
  });
});
