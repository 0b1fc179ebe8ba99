import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe } from "vitest";
import { hasChromium, mustRun, openBrowser, whySkipped } from "./open-browser.ts";
import { type DemoScreen, openDemoScreen, startLimit } from "./open-demo-screen.ts";

/** What tests of the screen share; there once the first of them runs. */
export interface Screen {
  readonly browser: Browser;
  readonly demo: DemoScreen;
}

/** Tests of the screen over the demo fleet, in one Chromium; skipped where none is found, unless they must run. */
export function describeScreen(what: string, tests: (screen: Screen) => void): void {
  describe.skipIf(!hasChromium && !mustRun)(
    `${what} (${hasChromium ? "Chromium found" : whySkipped})`,
    () => {
      let browser: Browser | undefined;
      let demo: DemoScreen | undefined;
      beforeAll(async () => {
        browser = await openBrowser();
        demo = await openDemoScreen();
      }, startLimit);
      afterAll(async () => {
        await browser?.close();
        await demo?.stop();
      });
      const opened = <T>(thing: T | undefined): T => {
        if (thing === undefined) throw new Error("the screen is not open yet");
        return thing;
      };
      tests({
        get browser() {
          return opened(browser);
        },
        get demo() {
          return opened(demo);
        },
      });
    },
  );
}
