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
