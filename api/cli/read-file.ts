import { readFile } from "node:fs/promises";
import { Problem } from "../errors/problem.ts";

/** The bytes of a list somebody named. Errors: `file-unreadable`, saying why. */
export async function bytesOf(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    const code = error instanceof Error ? Reflect.get(error, "code") : undefined;
    const why =
      code === "ENOENT"
        ? "there is no such file"
        : code === "EISDIR"
          ? "it is a folder"
          : `the system says ${String(code)}`;
    throw new Problem(
      "file-unreadable",
      `A list must be a readable file; ${path} cannot be read: ${why}. Check the path and its permissions.`,
      { cause: error },
    );
  }
}
