import { nodeLabels, relationshipTypes } from "../catalogue.ts";
import type { PropertyMap } from "../property.ts";
import { cypherExamples } from "./cypher-examples.ts";

/** The page that documents every label and relationship, in Markdown, from the declarations alone. */
export function modelPage(): string {
  const lines = [
    "# The graph",
    "",
    "Made from the declarations in this folder by `npm run model-page`; do not edit. Units are those of the store.",
    "",
    "## Node labels",
  ];
  for (const node of Object.values(nodeLabels)) {
    lines.push(
      "",
      `### ${node.label}`,
      "",
      `${node.meaning}. Told apart by: ${identity(node.identifiedBy)}.`,
    );
    lines.push(...table(node.properties));
  }
  lines.push("", "## Relationships");
  for (const link of Object.values(relationshipTypes)) {
    const each = link.each === "one" ? "at most one" : "any number";
    lines.push(
      "",
      `### (${link.from.join(" or ")}) -[${link.type}]-> (${link.to.join(" or ")})`,
      "",
      `${link.meaning}. Each source has ${each}.`,
    );
    lines.push(...table(link.properties));
  }
  lines.push(...asked());
  return `${lines.join("\n")}\n`;
}

/** How the graph looks on a Neo4j server, and what can be asked of it there. */
function asked(): string[] {
  const lines = [
    "",
    "## Asking a Neo4j server by hand",
    "",
    "On a server the names are those above. Besides, every node has `id`, `key` and `version`, every relationship `version`;",
    "`extra` holds unknown columns as JSON, `sequence` the number of the change that made it, `searchWords`, `searchNumbers`",
    "and `searchCode` what a search looks at. Days are ISO text. `Write`, `Change`, `Creations` and `Journal` nodes are the",
    "journal: read them, but change nothing by hand, for a change made so is in no journal and cannot be undone.",
  ];
  for (const { question, query } of cypherExamples)
    lines.push("", `**${question}**`, "", "```cypher", query, "```");
  return lines;
}

const identity = (pieces: readonly string[]): string =>
  pieces
    .map((piece) => (piece.startsWith(">") ? `what ${piece.slice(1)} leads to` : piece))
    .join(", ");

function table(properties: PropertyMap): string[] {
  const names = Object.keys(properties);
  if (names.length === 0) return [];
  const rows = names.map((name) => {
    const property = properties[name];
    const kind = property?.choices?.join(" / ") ?? property?.kind ?? "";
    const must = property?.required === true ? "yes" : "";
    return `| ${name} | ${kind} | ${property?.unit ?? ""} | ${must} | ${property?.meaning ?? ""} |`;
  });
  return ["", "| property | kind | unit | required | meaning |", "|---|---|---|---|---|", ...rows];
}
