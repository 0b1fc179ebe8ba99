import { Neo4jError } from "neo4j-driver";
import { Problem } from "../../errors/problem.ts";
import type { Neo4jSettings } from "./settings.ts";

const place = ({ uri, database }: Neo4jSettings): string =>
  database === undefined ? uri : `${uri} (database ${database})`;

/**
 * The catalogue's problem for a failure of the server; other errors come back unchanged. Codes: Neo4j Operations
 * Manual 5, "Neo4j error codes"; those without "Neo." are the driver's own.
 */
export function neo4jProblem(cause: unknown, settings: Neo4jSettings): unknown {
  if (!(cause instanceof Neo4jError)) return cause;
  const { code } = cause;
  const problem = (...[name, text]: [ConstructorParameters<typeof Problem>[0], string]) =>
    new Problem(name, text, { cause, facts: { serverCode: code } });
  const where = place(settings);
  if (code.startsWith("Neo.ClientError.Security."))
    return code.endsWith(".Forbidden")
      ? problem(
          "store-refused",
          `The user must have a role that may do this; ${settings.user} has none on ${where}. Nothing was changed. Ask whoever keeps the server.`,
        )
      : problem(
          "store-refused",
          `The server must know the user and the password; ${settings.uri} does not take those of ${settings.user}${code.endsWith("RateLimit") ? " (too many wrong attempts; wait a little)" : ""}. Check NEO4J_USER and NEO4J_PASSWORD.`,
        );
  if (code === "Neo.ClientError.Database.DatabaseNotFound")
    return problem(
      "store-refused",
      `The server at ${settings.uri} must hold the database named; there is no ${settings.database ?? "home database"} there. Check NEO4J_DATABASE.`,
    );
  if (code === "ServiceUnavailable" || code === "SessionExpired")
    return problem(
      "store-unreachable",
      `The server at ${settings.uri} must answer, and it does not (any more); a write that was under way was rolled back whole, unless it had been acknowledged. Check that it runs and that NEO4J_URI is its address, then try again.`,
    );
  if (code.includes("DatabaseUnavailable") || code.includes("NotALeader"))
    return problem(
      "store-unreachable",
      `The database at ${where} is not ready; nothing was changed. Try again in a moment.`,
    );
  if (/OutOfMemory|TransactionOutOfMemory|MemoryPoolOutOfMemory/.test(code))
    return problem(
      "store-full",
      `The server at ${settings.uri} has not enough memory for one write of this size; nothing was changed. Give it a larger heap (server.memory.heap.max_size), or take the file in in pieces.`,
    );
  if (code.startsWith("Neo.TransientError."))
    return problem(
      "store-busy",
      `The server at ${settings.uri} is busy with other writes (${code}); nothing was changed. Try again in a moment.`,
    );
  if (/PropertyValueTooLarge|IndexEntry|too large to index/.test(`${code} ${cause.message}`))
    return problem(
      "input-invalid",
      "A name or number is too long for the server's index (8000 bytes); nothing was changed. Shorten it.",
    );
  return problem(
    "store-damaged",
    `The server at ${settings.uri} could not do what was asked (${code}: ${cause.message}); nothing was changed.`,
  );
}
