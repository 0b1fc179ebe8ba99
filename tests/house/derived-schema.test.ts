import { DatabaseSync } from "node:sqlite";
import { describe, expect, test } from "vitest";
import { ownProperties } from "../../api/store/neo4j/codec.ts";
import {
  neo4jConstraints,
  nodeDeclaration,
  nodeLabelNames,
  quoteName,
  relationshipDeclaration,
  relationshipTypeNames,
  sqliteTables,
} from "../../graph-schema/index.ts";

function emptyDatabase(): DatabaseSync {
  const db = new DatabaseSync(":memory:", { enableForeignKeyConstraints: false });
  db.exec("CREATE TABLE node (n INTEGER PRIMARY KEY, id TEXT, label TEXT) STRICT");
  for (const table of sqliteTables()) {
    db.exec(table.createTable);
    for (const index of table.createIndexes) db.exec(index);
  }
  return db;
}

describe("tables derived from the declarations", () => {
  test("are one per label and relationship, with a column per property and no name twice", () => {
    const db = emptyDatabase();
    const declared = [
      ...nodeLabelNames.map((label) => nodeDeclaration(label)),
      ...relationshipTypeNames.map((type) => relationshipDeclaration(type)),
    ];
    expect(sqliteTables()).toHaveLength(declared.length);
    for (const declaration of declared) {
      const name = "label" in declaration ? declaration.label : declaration.type;
      const columns = db.prepare("SELECT name FROM pragma_table_info(?)").all(name);
      const names = columns.map((column) => String(column["name"]));
      expect(names).toEqual(expect.arrayContaining(Object.keys(declaration.properties)));
      // SQLite takes names that differ in case only for the same column.
      expect(new Set(names.map((column) => column.toLowerCase())).size).toBe(names.length);
      expect(db.prepare("SELECT strict FROM pragma_table_list(?)").get(name)?.["strict"]).toBe(1);
    }
    db.close();
  });

  test("refuse what the declarations refuse: choices, ranges, days, types, missing values", () => {
    const db = emptyDatabase();
    const insert = (table: string, values: Record<string, string | number>) => {
      const all = { n: 1, version: 1, ...values };
      const names = Object.keys(all).map(quoteName).join(", ");
      const marks = Object.keys(all).map(() => "?");
      db.exec("BEGIN");
      try {
        db.prepare(`INSERT INTO ${quoteName(table)} (${names}) VALUES (${marks.join(", ")})`).run(
          ...Object.values(all),
        );
      } finally {
        db.exec("ROLLBACK");
      }
    };
    const line = { fromNode: 1, toNode: 2, quantity: 1 };
    expect(() =>
      insert("USES", { ...line, failureEffect: "degrade", fittableAtSea: 0 }),
    ).not.toThrow();
    expect(() => insert("USES", { ...line, failureEffect: "explode" })).toThrow(/CHECK/);
    expect(() => insert("USES", { ...line, fittableAtSea: 2 })).toThrow(/CHECK/);
    expect(() => insert("USES", { ...line, quantity: 0 })).toThrow(/CHECK/);
    expect(() => insert("USES", { ...line, quantity: "two" })).toThrow(/cannot store TEXT/);
    expect(() => insert("USES", { fromNode: 1, toNode: 2 })).toThrow(/NOT NULL/);
    const lot = { key: "k", quantity: 1 };
    expect(() => insert("StockLot", { ...lot, expires: "2027-05-01" })).not.toThrow();
    expect(() => insert("StockLot", { ...lot, expires: "1.5.2027" })).toThrow(/CHECK/);
    db.close();
  });
});

describe("Neo4j statements derived from the declarations", () => {
  test("leave the names that the store itself uses free: no property is declared by one", () => {
    for (const label of nodeLabelNames)
      for (const name of ownProperties.node)
        expect(nodeDeclaration(label).properties, `${label}.${name}`).not.toHaveProperty(name);
    for (const type of relationshipTypeNames)
      for (const name of ownProperties.link)
        expect(relationshipDeclaration(type).properties, `${type}.${name}`).not.toHaveProperty(
          name,
        );
    // Labels of the store's own nodes.
    for (const label of ["Journal", "Write", "Change", "Creations"])
      expect(nodeLabelNames).not.toContain(label);
  });

  test("give every label a unique id, a unique key and an indexed name, each under its own name", () => {
    const statements = neo4jConstraints();
    const names = statements.map((statement) => statement.split(" ")[2]);
    expect(new Set(names).size).toBe(statements.length);
    for (const label of nodeLabelNames)
      for (const property of ["id", "key", nodeDeclaration(label).nameFrom])
        expect(
          statements.filter(
            (statement) =>
              statement.includes(`(n:\`${label}\`)`) && statement.includes(`n.\`${property}\``),
          ),
        ).toHaveLength(1);
  });
});
