import { nodeDeclaration, nodeLabelNames } from "../catalogue.ts";

/**
 * Cypher statements, each safe to run again: id and key are unique within a label, and names are indexed.
 * Cypher Manual, "Constraints" and "Search-performance indexes" (Neo4j 5).
 */
export function neo4jConstraints(): readonly string[] {
  return nodeLabelNames.flatMap((label) => {
    const name = label.toLowerCase();
    const { nameFrom } = nodeDeclaration(label);
    return [
      `CREATE CONSTRAINT ${name}_id IF NOT EXISTS FOR (n:\`${label}\`) REQUIRE n.\`id\` IS UNIQUE`,
      `CREATE CONSTRAINT ${name}_key IF NOT EXISTS FOR (n:\`${label}\`) REQUIRE n.\`key\` IS UNIQUE`,
      `CREATE INDEX ${name}_name IF NOT EXISTS FOR (n:\`${label}\`) ON (n.\`${nameFrom}\`)`,
    ];
  });
}
