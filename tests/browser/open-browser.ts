import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, chromium, type Page } from "playwright-core";

const chromiumPath = process.env["CHROMIUM"] ?? "/usr/bin/chromium";

/** Whether these tests can run; where they must (CI=true), a missing Chromium is a failure, not a reason to skip. */
export const hasChromium = existsSync(chromiumPath);
export const mustRun = process.env["CI"] === "true";
export const whySkipped = `no Chromium at ${chromiumPath}: set CHROMIUM to its path`;

const switches = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export const openBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: chromiumPath, args: switches });

const root = fileURLToPath(new URL("../..", import.meta.url));

/** Builds the screen as it is shipped, into a folder of its own; returns the folder. */
export function buildScreen(): string {
  const folder = join(mkdtempSync(join(tmpdir(), "sparewright-screen-")), "ui");
  execFileSync(
    process.execPath,
    [
      join(root, "node_modules/vite/bin/vite.js"),
      "build",
      "--config",
      join(root, "vite.config.ts"),
      "--outDir",
      folder,
    ],
    { cwd: root, env: { ...process.env, NODE_ENV: "production", VITEST: "" }, stdio: "pipe" },
  );
  return folder;
}

export const schemes = ["day", "dusk", "night"] as const;
export type Scheme = (typeof schemes)[number];

export interface Watched {
  readonly page: Page;
  /** Console errors and uncaught exceptions so far. */
  readonly complaints: string[];
}

/** A page of the given size wearing a scheme; everything it complains of is kept. */
export async function openPage(
  browser: Browser,
  size: { readonly width: number; readonly height: number },
  scheme: Scheme = "day",
): Promise<Watched> {
  const context = await browser.newContext({ viewport: size, reducedMotion: "reduce" });
  await context.addInitScript(
    (name) => window.localStorage.setItem("sparewright.scheme", name),
    scheme,
  );
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(error.message));
  return { page, complaints };
}

/** What axe finds against WCAG 2.2 A and AA, as readable lines. */
export async function axeFindings(page: Page): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page })
    .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"])
    .analyze();
  return violations.flatMap((violation) =>
    violation.nodes.map(
      (node) => `${violation.id}: ${node.target.join(" ")} ${node.failureSummary ?? ""}`,
    ),
  );
}
