import { expect, it } from "vitest";
import { describeScreen } from "./describe-screen.ts";
import { axeFindings, openPage } from "./open-browser.ts";

const laptop = { width: 1366, height: 768 };

describeScreen("the screen while the program is away", (screen) => {
  it("opens, shows what was last said, refuses changes with a word, and goes on when it is back", async () => {
    const { page } = await openPage(screen.browser, laptop);
    await page.goto(`${screen.demo.address}/#/crossing`);
    await page.getByRole("heading", { name: "The kit, and why" }).waitFor();
    await page.goto(`${screen.demo.address}/#/parts?text=MV.005`);
    await page.getByRole("link", { name: "MV.005.A" }).click();
    await page.getByRole("heading", { name: "Mordanvik › MV.005.A" }).waitFor();
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));

    await screen.demo.goAway();
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
    await page.goto(`${screen.demo.address}/#/find?text=never-asked-before`);
    await page
      .getByRole("alert")
      .getByText(/was not looked at before/)
      .waitFor();

    await screen.demo.comeBack();
    await page.getByRole("button", { name: "Try again" }).first().click();
    await bar.waitFor({ state: "detached" });
    await page.context().close();
  }, 120_000);
});
