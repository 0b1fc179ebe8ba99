import neo4j from "neo4j-driver";
import type { Neo4jSettings } from "../../api/store/neo4j/settings.ts";

/** Runs one query as a person would, in a transaction of its own; rows as plain objects with plain numbers. */
export async function cypher(
  { uri, user, password, database }: Neo4jSettings,
  query: string,
  parameters: Readonly<Record<string, unknown>> = {},
): Promise<Record<string, unknown>[]> {
  const driver = neo4j.driver(uri, neo4j.auth.basic(user, password), {
    disableLosslessIntegers: true,
  });
  const session = driver.session(database === undefined ? {} : { database });
  try {
    return (await session.run(query, parameters)).records.map((record) => record.toObject());
  } finally {
    await session.close();
    await driver.close();
  }
}

interface Plan {
  readonly operatorType: string;
  readonly children: readonly Plan[];
}

/** The operators by which the server really ran a query (PROFILE), without the names of their databases. */
export async function profiledOperators(
  { uri, user, password, database }: Neo4jSettings,
  query: string,
  parameters: Readonly<Record<string, unknown>>,
): Promise<readonly string[]> {
  const driver = neo4j.driver(uri, neo4j.auth.basic(user, password));
  const session = driver.session(database === undefined ? {} : { database });
  try {
    const { summary } = await session.run(`PROFILE ${query}`, parameters);
    if (summary.profile === false) throw new Error("The server gave no profile");
    const flat = (plan: Plan): string[] => [
      plan.operatorType.replace(/@.*$/, ""),
      ...plan.children.flatMap(flat),
    ];
    return flat(summary.profile as Plan);
  } finally {
    await session.close();
    await driver.close();
  }
}
