import { readFileSync } from "node:fs";
import { isInt } from "neo4j-driver";
import { type Client, numberOf } from "./client.ts";

/** Questions that the server answers by itself, so that a fleet's parts lists need not cross the wire: a file each in `questions/`. */
export const questions = [
  "distinct-parts",
  "indices",
  "kits",
  "supplier-coverage",
  "supplier-parts",
  "single-source-parts",
  "where-used",
  "what-stops",
] as const;
export type Question = (typeof questions)[number];

/** What a question is about: a vessel's id ("" for the whole fleet), or a part's. */
export type About = { readonly vessel: string } | { readonly part: string };

const textOf = (name: string): string =>
  readFileSync(new URL(`questions/${name}.cypher`, import.meta.url), "utf8");

/** The Cypher of a question: its file, with the condition on which pairs of parts merge put in its place. */
export const questionText = (question: Question): string =>
  textOf(question).replaceAll("WHERE {merges}", () => `WHERE\n${textOf("parts/merges")}`);

/** The answer's rows, whole numbers as plain numbers. Errors: those of the server. */
export function askServer(
  client: Client,
  question: Question,
  about: About,
): Promise<readonly Readonly<Record<string, unknown>>[]> {
  return client.read(async (transaction) => {
    const rows = await transaction.objects(questionText(question), {
      vessel: "",
      ...about,
    });
    return rows.map((row) =>
      Object.fromEntries(Object.entries(row).map(([name, value]) => [name, plain(value)])),
    );
  });
}

const plain = (value: unknown): unknown =>
  typeof value === "object" && value !== null && isInt(value) ? numberOf(value) : value;
