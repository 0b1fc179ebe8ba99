import { spawn } from "node:child_process";
import type { Command } from "commander";
import { keepSnapshot } from "../plans/keep-snapshot.ts";
import { openDemo } from "../plans/open-demo.ts";
import { planKit } from "../plans/plan-kit.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { type DatabasePlace, locateDatabase } from "./locate-database.ts";
import { type GlobalOptions, openForWriting } from "./open-graph.ts";
import { demoFolder, packageVersion, uiFolder } from "./package-root.ts";
import { readPort } from "./read-options.ts";
import { say, sayAside } from "./say.ts";
import { showKit } from "./show-kit.ts";
import { showProblem } from "./show-problem.ts";
import { showProgress } from "./show-progress.ts";
import { today } from "./today.ts";

interface ServeOptions extends GlobalOptions {
  readonly port?: number;
  readonly firstRun?: boolean;
  readonly open: boolean;
}

const usualPort = 4180;
const portsTried = 10;

async function isEmpty(store: GraphStore): Promise<boolean> {
  return (await store.count("Import")) === 0 && (await store.count("Part")) === 0;
}

/** First run: the demo spreadsheets taken in by the importer itself, and the kit for their crossing. */
async function welcome(store: GraphStore): Promise<void> {
  if (!(await isEmpty(store))) return;
  sayAside("First run: taking in the invented demo fleet.");
  const { progress, finish } = showProgress();
  const occasion = { who: "first run", at: new Date().toISOString() };
  const answers = await openDemo(store, demoFolder, occasion, progress).finally(finish);
  for (const { file, rows } of answers) {
    sayAside(`  ${file.name}: ${rows.accepted} of ${rows.read} rows taken in`);
  }
  showKit(await planKit(store, {}, today()), false);
  say();
}

function openBrowser(address: string): void {
  const isScreen = process.stdout.isTTY === true && process.env["CI"] === undefined;
  const hasDisplay =
    process.platform !== "linux" ||
    Boolean(process.env["DISPLAY"] ?? process.env["WAYLAND_DISPLAY"]);
  if (!isScreen || !hasDisplay) return;
  const [program, ...rest] =
    process.platform === "darwin"
      ? ["open"]
      : process.platform === "win32"
        ? ["cmd", "/c", "start", ""]
        : ["xdg-open"];
  const child = spawn(program ?? "xdg-open", [...rest, address], {
    detached: true,
    stdio: "ignore",
  });
  // No browser is no failure: the address stands on the terminal.
  child.on("error", () => undefined);
  child.unref();
}

/** Where the data lives, in words. */
const databaseWords = (place: DatabasePlace): string =>
  place.kind === "server"
    ? "On the graph server this program was pointed to"
    : `In the file ${place.path}`;

const untilStopped = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) {
      process.on(signal, () => resolve());
    }
  });

export function addServeCommand(program: Command): void {
  program
    .command("serve")
    .description("serve the screen on this machine only")
    .option("--port <port>", `port, the first free one from ${usualPort} when absent`, readPort)
    .option("--first-run", "fill an empty database with the invented demo fleet")
    .option("--no-open", "do not open a browser")
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<ServeOptions>();
      const stopped = untilStopped();
      // Loaded here, so that the other commands start without the HTTP framework.
      const { buildApp } = await import("../http/build-app.ts");
      const { listen } = await import("../http/listen.ts");
      const graph = await openForWriting(options);
      try {
        const store = keepSnapshot(graph.store);
        if (options.firstRun === true) await welcome(store);
        const app = buildApp({
          store,
          now: () => new Date(),
          uiFolder,
          version: packageVersion(),
          database: databaseWords(locateDatabase(options.db)),
          report: showProblem,
        });
        const tries = options.port === undefined ? portsTried : 1;
        const listening = await listen(app, options.port ?? usualPort, tries);
        say(`The screen is at ${listening.address} (Ctrl-C stops it).`);
        if (options.open) openBrowser(listening.address);
        await stopped;
        await listening.close();
      } finally {
        await graph.close();
      }
    });
}
