import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { temporaryFolder } from "./run-command.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const launcher = join(root, "api/cli/launch.cjs");
const folder = temporaryFolder();
afterAll(folder.clear);

interface Serving {
  readonly address: string;
  readonly out: () => string;
  /** Ends it as Ctrl-C does, and waits. */
  stop(): Promise<number | null>;
}

/** Starts `serve` and waits until it prints its address. */
function serve(args: readonly string[]): Promise<Serving> {
  const child: ChildProcess = spawn(process.execPath, [launcher, "serve", "--no-open", ...args], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let out = "";
  let err = "";
  const ended = new Promise<number | null>((resolve) => child.on("close", resolve));
  return new Promise((resolve, reject) => {
    child.stderr?.on("data", (bytes: Buffer) => {
      err += bytes.toString();
    });
    child.stdout?.on("data", (bytes: Buffer) => {
      out += bytes.toString();
      const address = /http:\/\/127\.0\.0\.1:\d+\//.exec(out)?.[0];
      if (address === undefined) return;
      resolve({
        address,
        out: () => out,
        stop: () => {
          child.kill("SIGINT");
          return ended;
        },
      });
    });
    void ended.then(() => reject(new Error(`serve ended early: ${err}`)));
  });
}

describe("serve", () => {
  it("fills an empty database on the first run only, prints the kit with cautions, keeps the data", async () => {
    const db = join(folder.path, "first.db");
    const first = await serve(["--first-run", "--port", "0", "--db", db]);
    expect(first.out()).toContain("Cautions");
    const overview = async (address: string) => (await fetch(`${address}api/overview`)).json();
    const before = (await overview(first.address)) as { counts: Record<string, number> };
    expect(before.counts["Vessel"]).toBe(3);
    expect(await first.stop()).toBe(0);

    const second = await serve(["--first-run", "--port", "0", "--db", db]);
    expect(second.out()).not.toContain("Cautions");
    expect(await overview(second.address)).toEqual(before);
    expect(await second.stop()).toBe(0);
  }, 60_000);

  it("says that a named port is taken, and exits 1", async () => {
    const db = join(folder.path, "port.db");
    const first = await serve(["--port", "0", "--db", db]);
    const { port } = new URL(first.address);
    const second = spawnSync(
      process.execPath,
      [launcher, "serve", "--no-open", "--port", port, "--db", db],
      { encoding: "utf8" },
    );
    expect(second.status).toBe(1);
    expect(second.stderr).toContain("port-taken");
    expect(second.stderr).toContain(port);
    await first.stop();
  }, 60_000);
});
