import { readFile } from "node:fs/promises";
import { Problem } from "../errors/problem.ts";

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  EISDIR: "it is a folder",
  EACCES: "its permissions do not allow it",
  EROFS: "the disk is read-only",
  ENOSPC: "the disk is full",
};

/** Why a file could not be read or written, in words. */
export function whyUnread(error: unknown): string {
  const code = error instanceof Error ? String(Reflect.get(error, "code")) : "nothing";
  return reasons[code] ?? `the system says ${code}`;
}

/** The bytes of a list somebody named. Errors: `file-unreadable`, saying why. */
export async function bytesOf(path: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
  } catch (error) {
    throw new Problem(
      "file-unreadable",
      `A list must be a readable file; ${path} cannot be read: ${whyUnread(error)}. Check the path and its permissions.`,
      { cause: error },
    );
  }
}
