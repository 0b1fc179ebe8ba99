import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const launcher = fileURLToPath(new URL("../../api/cli/launch.cjs", import.meta.url));

export interface Run {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command as a person would, in a process of its own, and waits for it. */
export function sparewright(
  args: readonly string[],
  env: Record<string, string> = {},
): Promise<Run> {
  return new Promise((resolve, reject) => {
    const {
      SPAREWRIGHT_DB: _db,
      NEO4J_URI: _uri,
      NEO4J_CONFIG: _config,
      ...inherited
    } = process.env;
    const child = spawn(process.execPath, [launcher, ...args], {
      env: { ...inherited, COLUMNS: "100", ...env },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
    });
    child.on("error", reject);
    child.on("close", (status) => resolve({ status, out, err }));
  });
}

/** A temporary folder, and the means to be rid of it. */
export function temporaryFolder(): { readonly path: string; readonly clear: () => void } {
  const path = mkdtempSync(join(tmpdir(), "sparewright-test-"));
  return { path, clear: () => rmSync(path, { recursive: true, force: true }) };
}
