import { readFileSync, statSync } from "node:fs";
import { Problem } from "../../errors/problem.ts";

type Environment = Readonly<Record<string, string | undefined>>;

/** Where the shared graph is and how to get in. Held in memory only: never logged, never in a message. */
export interface Neo4jSettings {
  readonly uri: string;
  readonly user: string;
  readonly password: string;
  /** The database on the server; absent for the user's home database. */
  readonly database?: string;
}

/** Schemes of the driver: routing or direct; `+s` with TLS and a checked certificate, `+ssc` with one made by hand. */
const schemes = ["neo4j", "neo4j+s", "neo4j+ssc", "bolt", "bolt+s", "bolt+ssc"];

/**
 * Settings from the environment: NEO4J_URI, NEO4J_USER, NEO4J_PASSWORD, NEO4J_DATABASE; what is absent there is
 * taken from the JSON file that NEO4J_CONFIG names ({ "uri", "user", "password", "database" }). The environment and a
 * file only: a command line would stay in the shell's history. Errors: `store-settings`.
 */
export function readSettings(env: Environment): Neo4jSettings {
  const path = env["NEO4J_CONFIG"];
  const file = path === undefined || path === "" ? {} : readConfigFile(path);
  const setting = (name: "uri" | "user" | "password" | "database"): string | undefined => {
    const value = env[`NEO4J_${name.toUpperCase()}`] ?? file[name];
    return value === "" ? undefined : value;
  };
  const uri = setting("uri");
  if (uri === undefined) throw wrong("a server's address is needed; NEO4J_URI names none");
  refuseUri(uri);
  const database = setting("database");
  return {
    uri,
    user: setting("user") ?? "neo4j",
    password: setting("password") ?? "",
    ...(database === undefined ? {} : { database }),
  };
}

function refuseUri(uri: string): void {
  let parsed: URL;
  try {
    parsed = new URL(uri);
  } catch (cause) {
    throw wrong("NEO4J_URI must be an address such as neo4j://host:7687; it cannot be read", cause);
  }
  if (parsed.username !== "" || parsed.password !== "")
    throw wrong(
      "NEO4J_URI must hold no user or password, for addresses are shown in messages; put them in NEO4J_USER and NEO4J_PASSWORD",
    );
  const scheme = parsed.protocol.slice(0, -1);
  if (!schemes.includes(scheme))
    throw wrong(`NEO4J_URI must begin with one of ${schemes.join(", ")}; it begins with ${scheme}`);
}

function readConfigFile(path: string): Readonly<Record<string, string | undefined>> {
  let text: string;
  try {
    if (process.platform !== "win32" && (statSync(path).mode & 0o077) !== 0)
      throw wrong(
        `a file with a password must be readable by its owner alone; ${path} is readable by others (chmod 600 ${path})`,
      );
    text = readFileSync(path, "utf8");
  } catch (cause) {
    if (cause instanceof Problem) throw cause;
    throw wrong(`NEO4J_CONFIG must name a file that can be read; ${path} cannot be`, cause);
  }
  try {
    const parsed: unknown = JSON.parse(text);
    if (typeof parsed === "object" && parsed !== null && !Array.isArray(parsed)) {
      const entries = Object.entries(parsed);
      if (entries.every(([, value]) => typeof value === "string"))
        return Object.fromEntries(entries) as Record<string, string>;
    }
  } catch {
    // The parser's message would quote the file, and with it the password.
  }
  throw wrong(
    `${path} must be a JSON object of texts: "uri", "user", "password" and, if need be, "database"`,
  );
}

const wrong = (rule: string, cause?: unknown): Problem =>
  new Problem("store-settings", `To use a shared graph, ${rule}.`, { cause });
