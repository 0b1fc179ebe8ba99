import { neo4jConstraints, nodeLabelNames } from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";
import { codedRelationships } from "../shared/search-codes.ts";
import { searchedProperties } from "../shared/search-text.ts";
import { type Client, numberOf } from "./client.ts";
import { ticked } from "./read-records.ts";

/** The shape of the store's own nodes (journal, creations, writes); raised when an older program could not read them. */
const schemaVersion = 1;
export const searchIndex = "sparewright_search";
const searched = nodeLabelNames.filter((label) => searchedProperties(label).length > 0);

/** Every statement the store needs besides those of the declarations; each safe to run again. */
const ownStatements: readonly string[] = [
  "CREATE CONSTRAINT journal_name IF NOT EXISTS FOR (n:Journal) REQUIRE n.name IS UNIQUE",
  "CREATE CONSTRAINT write_change IF NOT EXISTS FOR (n:Write) REQUIRE n.changeId IS UNIQUE",
  "CREATE CONSTRAINT write_first IF NOT EXISTS FOR (n:Write) REQUIRE n.first IS UNIQUE",
  "CREATE INDEX write_last IF NOT EXISTS FOR (n:Write) ON (n.last)",
  "CREATE INDEX write_import IF NOT EXISTS FOR (n:Write) ON (n.import)",
  "CREATE CONSTRAINT change_sequence IF NOT EXISTS FOR (n:Change) REQUIRE n.sequence IS UNIQUE",
  "CREATE INDEX change_about IF NOT EXISTS FOR (n:Change) ON (n.about)",
  "CREATE INDEX change_from IF NOT EXISTS FOR (n:Change) ON (n.from)",
  "CREATE INDEX change_to IF NOT EXISTS FOR (n:Change) ON (n.to)",
  "CREATE CONSTRAINT creations_first IF NOT EXISTS FOR (n:Creations) REQUIRE n.first IS UNIQUE",
  ...codedRelationships.map(
    ([type]) =>
      `CREATE INDEX ${type.toLowerCase()}_code IF NOT EXISTS FOR ()-[r:${ticked(type)}]-() ON (r.searchCode)`,
  ),
  `CREATE FULLTEXT INDEX ${searchIndex} IF NOT EXISTS FOR (n:${searched.map(ticked).join("|")})
   ON EACH [n.searchWords, n.searchNumbers] OPTIONS { indexConfig: { \`fulltext.analyzer\`: 'whitespace' } }`,
];

/**
 * Brings the database up to the declarations: constraints and indexes, then a head for the journal. A database that
 * is so already is only read, so that a user without the right to change the schema can use it.
 * Errors: `store-newer`; `store-damaged` where the database holds another program's data.
 */
export async function migrate(client: Client): Promise<void> {
  const statements = [...neo4jConstraints(), ...ownStatements];
  const wanted = statements.join(";\n");
  const head = await client.read(async (transaction) => {
    const [found] = await transaction.rows(
      "OPTIONAL MATCH (j:Journal {name: 'journal'}) RETURN j.schemaVersion, j.statements",
    );
    const [strange] = await transaction.rows("MATCH (n) RETURN count(n)");
    return { version: found?.[0], statements: found?.[1], held: Number(strange?.[0] ?? 0) };
  });
  if (typeof head.version !== "object" || head.version === null) {
    if (head.held > 0)
      throw new Problem(
        "store-damaged",
        `The database at ${client.settings.uri} must be empty or ours; it holds ${head.held} nodes of another program and was left as it is. Name another with NEO4J_DATABASE.`,
      );
  } else {
    const version = numberOf(head.version);
    if (version > schemaVersion)
      throw new Problem(
        "store-newer",
        `The database at ${client.settings.uri} has version ${version}; this program knows versions up to ${schemaVersion}. Update the program; the database was left as it is.`,
        { facts: { found: version, known: schemaVersion } },
      );
    if (head.statements === wanted) return;
  }
  for (const statement of statements) await client.statement(statement);
  await client.statement("CALL db.awaitIndexes(600)");
  await client.write((transaction) =>
    transaction.run(
      `MERGE (j:Journal {name: 'journal'})
       ON CREATE SET j.sequence = 0, j.anyDeleted = false
       SET j.schemaVersion = toInteger($version), j.statements = $wanted`,
      { version: schemaVersion, wanted },
    ),
  );
}
