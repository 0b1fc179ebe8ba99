import { expect, it } from "vitest";
import { describeScreen } from "./describe-screen.ts";
import { axeFindings, openPage } from "./open-browser.ts";

const laptop = { width: 1366, height: 768 };

describeScreen("typing and correcting", (screen) => {
  it("finds a part from any page while one types, corrects it in place, and takes that back", async () => {
    const { page, complaints } = await openPage(screen.browser, laptop);
    await page.goto(`${screen.demo.address}/#/settings`);
    const search = page.getByRole("combobox", { name: /Find a part number/ });
    await search.fill("MV.005.A");
    await page.getByRole("option", { name: /^MV\.005\.A/ }).click();
    await page.getByRole("heading", { name: "Mordanvik › MV.005.A" }).waitFor();
    expect(page.url()).toContain("#/parts?part=");

    await page.getByRole("button", { name: /^Change mass, now 0.09/ }).click();
    const field = page.getByRole("textbox", { name: "mass" });
    await field.fill("heavy");
    await field.press("Enter");
    // Refused beside the field; what was typed stays to be corrected.
    await page.getByRole("alert").waitFor();
    expect(await field.inputValue()).toBe("heavy");
    expect(await axeFindings(page)).toEqual([]);
    await field.fill("250 g");
    await field.press("Enter");
    await page.getByRole("button", { name: /^Change mass, now 0.25 kg/ }).waitFor();
    await page
      .getByRole("region", { name: "Last change" })
      .getByText(/MV\.005\.A/)
      .waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole("button", { name: "Undo" }).click();
    await page.getByRole("button", { name: /^Change mass, now 0.09 kg/ }).waitFor();
    // The one refusal above is the screen.browser's own report of the answer 422.
    expect(complaints.filter((line) => !/status of 4\d\d/.test(line))).toEqual([]);
    await page.context().close();
  }, 90_000);

  it("says so when another has changed the record meanwhile, and loses neither", async () => {
    const { page } = await openPage(screen.browser, laptop);
    await page.goto(`${screen.demo.address}/#/parts?text=MV.006`);
    await page.getByRole("link", { name: "MV.006.H" }).click();
    await page.getByRole("button", { name: /^Change mass/ }).click();
    const id = new URLSearchParams(page.url().split("?")[1]).get("part") ?? "";
    const url = `${screen.demo.address}/api/records/${encodeURIComponent(id)}`;
    const { record } = (await (await fetch(url)).json()) as { record: { version: number } };
    const other = await fetch(url, {
      method: "PATCH",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ basedOn: record.version, set: { massKg: 0.5 } }),
    });
    expect(other.status).toBe(200);
    const field = page.getByRole("textbox", { name: "mass" });
    await field.fill("0.7");
    await field.press("Enter");
    const told = page.getByRole("alert");
    await told.getByText(/now says 0\.5 kg/).waitFor();
    expect(await field.inputValue()).toBe("0.7");
    await page.getByRole("button", { name: "Keep" }).click();
    await page.getByRole("button", { name: /^Change mass, now 0.7 kg/ }).waitFor();
    await page.context().close();
  }, 60_000);

  it("shows what would go with a record before it is taken out, and puts it all back", async () => {
    const { page } = await openPage(screen.browser, laptop);
    await page.goto(`${screen.demo.address}/#/gear?text=Ankerwinde`);
    await page.getByRole("link", { name: "TW-1500" }).first().click();
    await page.getByRole("button", { name: "Take it out" }).click();
    await page.getByRole("button", { name: /^Take out all \d+/ }).click();
    await page.getByRole("button", { name: "Undo" }).click();
    await page.getByRole("heading", { name: /TW-1500/ }).waitFor();
    await page.context().close();
  }, 60_000);

  it("adds a part by hand and opens it", async () => {
    const { page } = await openPage(screen.browser, laptop);
    await page.goto(`${screen.demo.address}/#/parts`);
    await page.getByRole("button", { name: "Add a part" }).click();
    await page.getByRole("textbox", { name: /^Maker/ }).fill("Mordanvik");
    await page.getByRole("textbox", { name: "part number" }).fill("00-NEW-1");
    await page.getByRole("textbox", { name: /^description/ }).fill("Spare strainer");
    await page.getByRole("button", { name: "Add it" }).click();
    await page.getByRole("heading", { name: "Mordanvik › 00-NEW-1" }).waitFor();
    // Where it is used: by the model's own name; then a line's further values, and the line out again.
    await page.getByRole("button", { name: "Add to: where it is used" }).click();
    await page.getByRole("textbox", { name: /^Model/ }).fill("MV6-240");
    await page.getByRole("textbox", { name: /^quantity/ }).fill("2");
    await page.getByRole("button", { name: "Add it" }).click();
    await page.getByRole("button", { name: "More about where it is used MV6-240" }).click();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole("button", { name: "Take this line out" }).click();
    await page.getByRole("heading", { name: "Where it is used" }).waitFor({ state: "detached" });
    await page.context().close();
  }, 60_000);

  it("uses pieces of a lot from its locker and takes that back", async () => {
    const { page } = await openPage(screen.browser, laptop);
    await page.goto(`${screen.demo.address}/#/lockers`);
    await page.getByRole("link", { name: /^Ysolvane/ }).click();
    const sentence = page.getByText(/pieces in \d+ lots lie in Ysolvane/);
    await sentence.waitFor();
    const before = await sentence.textContent();
    await page
      .getByRole("button", { name: /^Use, move or correct/ })
      .nth(8)
      .click();
    await page.getByRole("button", { name: "Use", exact: true }).click();
    await expect.poll(() => sentence.textContent(), { timeout: 10_000 }).not.toBe(before);
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => sentence.textContent(), { timeout: 10_000 }).toBe(before);
    await page.context().close();
  }, 90_000);
});
