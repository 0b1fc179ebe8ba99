import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

/** Compressed bytes of the script a cold browser fetches before the first page: the page's own and what it imports. */
export function firstScriptBytes(built: string): number {
  const page = readFileSync(join(built, "index.html"), "utf8");
  const names = [...page.matchAll(/(?:src|href)="\.\/(assets\/[^"]+\.js)"/g)].map(
    (found) => found[1] ?? "",
  );
  return names
    .map((name) => gzipSync(readFileSync(join(built, name))).byteLength)
    .reduce((sum, size) => sum + size, 0);
}
