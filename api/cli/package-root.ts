import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { packageRoot } from "../plans/package-root.ts";

export const isCheckout: boolean = existsSync(join(packageRoot, "tsconfig.json"));

export const demoFolder: string = join(packageRoot, "importers", "demo");
export const uiFolder: string = join(packageRoot, "dist", "ui");

/** The version in package.json. */
export function packageVersion(): string {
  const facts: unknown = JSON.parse(readFileSync(join(packageRoot, "package.json"), "utf8"));
  const version = typeof facts === "object" && facts !== null ? Reflect.get(facts, "version") : "";
  return typeof version === "string" ? version : "0.0.0";
}
