import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The folder of package.json, above this file whether it runs as source or built. */
export const packageRoot: string = (() => {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, "package.json")) && dirname(folder) !== folder) {
    folder = dirname(folder);
  }
  return folder;
})();
