import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import request from "supertest";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildApp } from "../../api/http/build-app.ts";
import { pressableStyleText } from "../../api/http/security-headers.ts";
import type { GraphStore } from "../../api/store/graph-store.ts";
import { openStore } from "../../api/store/open-store.ts";
import { now } from "./small-app.ts";

const modules = fileURLToPath(new URL("../../node_modules", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "sparewright-screen-"));
let store: GraphStore;

beforeAll(async () => {
  store = await openStore({ db: ":memory:", env: {} });
  mkdirSync(join(folder, "assets"));
  writeFileSync(join(folder, "index.html"), "<!doctype html><title>Spares</title>");
  writeFileSync(join(folder, "assets", "main-1a2b3c.js"), "export {};");
  writeFileSync(join(folder, ".secret"), "kept");
});
afterAll(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const app = () => buildApp({ store, now, uiFolder: folder });

describe("the screen's files", () => {
  it("gives the one page for every address of the screen, checked anew each time", async () => {
    for (const path of ["/", "/crossing", "/commonality/winch"]) {
      const answer = await request(app()).get(path);
      expect(answer.status, path).toBe(200);
      expect(answer.text).toContain("<title>Spares</title>");
      expect(answer.headers["cache-control"]).toBe("no-cache");
    }
  });

  it("lets browsers keep files whose names carry their hash", async () => {
    const answer = await request(app()).get("/assets/main-1a2b3c.js");
    expect(answer.headers["content-type"]).toMatch(/javascript/);
    expect(answer.headers["cache-control"]).toContain("immutable");
  });

  it("answers missing files, hidden files and addresses of the API as problems", async () => {
    for (const path of ["/assets/missing.js", "/.secret", "/api/nothing"]) {
      const answer = await request(app()).get(path);
      expect(answer.status, path).toBe(404);
      expect(answer.headers["content-type"]).toMatch(/^application\/problem\+json/);
    }
  });

  it("gives nothing from outside its folder", async () => {
    const outside = join(tmpdir(), `${basename(folder)}-outside.txt`);
    writeFileSync(outside, "kept");
    for (const step of ["..%2f", "%2e%2e/", "..%5c", "../"]) {
      const answer = await request(app()).get(`/${step}${basename(outside)}`);
      expect(answer.status, step).toBeGreaterThanOrEqual(400);
      expect(answer.text).not.toContain("kept");
    }
    rmSync(outside);
  });

  it("says how to build the screen where it has not been built", async () => {
    const bare = buildApp({ store, now, uiFolder: join(folder, "nowhere") });
    const answer = await request(bare).get("/");
    expect(answer.status).toBe(404);
    expect(answer.body.detail).toContain("npm run build");
  });

  it("lets through, by hash, exactly the style the component library adds", () => {
    // Source: the installed library's own text; a new version that changes it fails here.
    const source = readFileSync(
      join(modules, "react-aria", "dist", "private", "interactions", "usePress.mjs"),
      "utf8",
    );
    const template = /style\.textContent = `([\s\S]*?)`\.trim\(\)/.exec(source)?.[1];
    const text = template?.replace(/\$\{[^}]+\}/, "data-react-aria-pressable").trim();
    expect(text).toBe(pressableStyleText);
  });
});
