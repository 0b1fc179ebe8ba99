import { Problem } from "../../errors/problem.ts";

/** Primary result codes of https://www.sqlite.org/rescode.html (the low byte of an extended code). */
const busy = 5;
const locked = 6;
const readOnly = 8;
const ioError = 10;
const corrupt = 11;
const full = 13;
const cannotOpen = 14;
const notADatabase = 26;
/** Extended I/O codes that a full disk causes when the shared-memory file cannot grow. */
const ioErrorShmSize = ioError | (19 << 8);
const ioErrorWrite = ioError | (3 << 8);

function resultCodeOf(cause: unknown): number | undefined {
  if (!(cause instanceof Error) || !("errcode" in cause)) return undefined;
  return typeof cause.errcode === "number" ? cause.errcode : undefined;
}

/** The catalogue's problem for a failure of SQLite on the file `path`; other errors come back unchanged. */
export function sqliteProblem(cause: unknown, path: string): unknown {
  const code = resultCodeOf(cause);
  if (code === undefined || !(cause instanceof Error)) return cause;
  const because = `(${cause.message})`;
  const primary = code & 0xff;
  if (primary === full || code === ioErrorShmSize || code === ioErrorWrite)
    return new Problem(
      "store-full",
      `The disk that holds ${path} has no room left ${because}; nothing was changed. Free some space and try again.`,
      { cause },
    );
  if (primary === busy || primary === locked)
    return new Problem(
      "store-busy",
      `Another program is writing to ${path} ${because}; nothing was changed. Close it, or try again in a moment.`,
      { cause },
    );
  if (primary === notADatabase || primary === corrupt)
    return new Problem(
      "store-damaged",
      `${path} is not a database, or is damaged ${because}. Restore a backup, or name another file with --db.`,
      { cause },
    );
  if (primary === readOnly || primary === cannotOpen || primary === ioError)
    return new Problem(
      "store-damaged",
      `${path} cannot be opened, read or written ${because}. Check that the folder exists and may be written to.`,
      { cause },
    );
  return cause;
}

/** Runs `work` on the file `path`, turning SQLite's failures into the catalogue's. */
export function withSqliteProblems<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (cause) {
    throw sqliteProblem(cause, path);
  }
}

/** Whether SQLite refused a value or a second record where only one may be (a constraint, code 19). */
export function constraintBroken(cause: unknown): "unique" | "value" | undefined {
  const code = resultCodeOf(cause);
  if (code === undefined || (code & 0xff) !== 19) return undefined;
  const unique = 19 | (8 << 8);
  const primaryKey = 19 | (6 << 8);
  return code === unique || code === primaryKey ? "unique" : "value";
}
