import { expect, it } from "vitest";
import { describeScreen } from "./describe-screen.ts";
import { axeFindings, openPage } from "./open-browser.ts";

const laptop = { width: 1366, height: 768 };
const phone = { width: 390, height: 844 };
const patience = 30_000;

interface Kit {
  readonly total: { readonly buyPieces: number };
  readonly comparison?: { readonly sentence: string; readonly parts: readonly unknown[] };
}

describeScreen("imagining", (screen) => {
  const kitOf = async (whatIf?: unknown): Promise<Kit> => {
    const response = await fetch(`${screen.demo.address}/api/kit`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ vessel: "Ysolvane", ...(whatIf === undefined ? {} : { whatIf }) }),
    });
    return (await response.json()) as Kit;
  };

  it("a winch replaced on Crossing stands beside the kit as it is, through reload, Back and other pages", async () => {
    const { page, complaints } = await openPage(screen.browser, laptop);
    page.setDefaultTimeout(patience);
    const before = await kitOf();
    const after = await kitOf({ replace: [{ item: "Primary winch, port aft", model: "VG-52" }] });
    await page.goto(`${screen.demo.address}/#/crossing?vessel=Ysolvane`);
    await page.getByText(new RegExp(`^${before.total.buyPieces} pieces of `)).waitFor();

    // By keyboard alone: what is still missing is said, then picked by typing.
    await page.getByRole("button", { name: "Imagine a change" }).press("Enter");
    const form = page.getByRole("form", { name: "A change to imagine" });
    await form.getByRole("button", { name: "Imagine it" }).press("Enter");
    await form.getByText("Pick the gear whose place is taken.").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    for (const [name, text, option] of [
      ["In the place of", "primary port aft", /Primary winch, port aft/],
      ["Model fitted, new", "VG-52", /VG-52/],
    ] as const) {
      const box = form.getByRole("combobox", { name });
      await box.focus();
      await page.keyboard.type(text);
      await page.getByRole("option", { name: option }).first().waitFor();
      await page.keyboard.press("ArrowDown");
      await page.keyboard.press("Enter");
    }
    await form.getByRole("button", { name: "Imagine it" }).press("Enter");

    const bar = page.getByRole("region", { name: "Imagined" });
    await bar.getByText(/Primary winch, port aft on Ysolvane: Velgrath VG-52, new/).waitFor();
    const sides = page.getByRole("region", { name: "Before and after: the kit" });
    await sides.getByText(after.comparison?.sentence ?? "no sentence").waitFor();
    const row = sides.getByRole("row", { name: /^pieces to buy/ });
    expect(await row.textContent()).toMatch(
      new RegExp(`${before.total.buyPieces}${after.total.buyPieces}\\+`),
    );
    expect(await sides.getByRole("table").last().getByRole("row").count()).toBe(
      1 + (after.comparison?.parts.length ?? 0),
    );
    expect(await axeFindings(page)).toEqual([]);

    // A shared address, and a reload, say the same.
    await page.reload();
    await sides.getByText(after.comparison?.sentence ?? "no sentence").waitFor();
    await bar.getByText(/Velgrath VG-52, new/).waitFor();

    // It goes along to other pages; those that show things as they are say so.
    const pagesNav = page.getByRole("navigation", { name: "Pages" });
    await pagesNav.getByRole("link", { name: "Commonality" }).click();
    await page.getByRole("region", { name: "Before and after: commonality" }).waitFor();
    await pagesNav.getByRole("link", { name: "Gear" }).click();
    await bar
      .getByText(/This page shows things as they are, without the change imagined/)
      .waitFor();
    await page.goBack();
    await page.goBack();
    await sides.waitFor();

    // Back once more: the kit as it is.
    await page.goBack();
    await page.getByText(new RegExp(`^${before.total.buyPieces} pieces of `)).waitFor();
    expect(await sides.count()).toBe(0);
    expect(await bar.count()).toBe(0);
    expect(complaints).toEqual([]);
    expect(screen.demo.reported).toEqual([]);
    await page.context().close();
  }, 400_000);

  it("drops what is imagined one by one or all, keeps it off the orders, and names what is gone", async () => {
    const { page, complaints } = await openPage(screen.browser, phone, "night");
    page.setDefaultTimeout(patience);
    const imagine = [
      "replace*Ysolvane: Primary winch, port aft*VG-52",
      "add*Ysolvane*Mast winch*T40 ST*2*-",
      "loseSuppliers*Nobody",
    ];
    const at = (list: readonly string[]) =>
      `${screen.demo.address}/#/order?vessel=Ysolvane&imagine=${encodeURIComponent(list.join("!"))}`;
    await page.goto(at(imagine));
    const bar = page.getByRole("region", { name: "Imagined" });
    await bar
      .getByRole("alert")
      .getByText(/No supplier is called "Nobody"/)
      .waitFor();
    await bar.getByRole("button", { name: "Drop: A supplier gone." }).click();
    await bar.getByText(/2 × Thornquay T40 ST, new, fitted as Mast winch on Ysolvane/).waitFor();
    expect(page.url()).not.toContain("Nobody");
    await page.getByText("What is imagined cannot be kept.").waitFor();
    expect(await page.getByRole("button", { name: /^Keep the/ }).isDisabled()).toBe(true);
    await page.getByRole("region", { name: "Before and after: the order" }).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      phone.width,
    );
    await bar.getByRole("button", { name: "Drop all of it" }).click();
    await expect.poll(() => bar.count()).toBe(0);
    expect(page.url()).not.toContain("imagine");
    expect(await page.getByText("What is imagined cannot be kept.").count()).toBe(0);
    // The refusals above are the browser's own report of answers 4xx.
    expect(complaints.filter((line) => !/status of 4\d\d/.test(line))).toEqual([]);
    await page.context().close();
  }, 180_000);
});
