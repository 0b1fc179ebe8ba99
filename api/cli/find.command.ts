import type { Command } from "commander";
import { type FindAnswer, findRequest } from "../contract/find.contract.ts";
import { findSpares } from "../plans/find-spares.ts";
import { readRequest } from "../plans/read-request.ts";
import { type GlobalOptions, openForReading } from "./open-graph.ts";
import { given, readNumber } from "./read-options.ts";
import { say, sayAside, sayCautions, sayDocument, sayWords } from "./say.ts";
import { today } from "./today.ts";

interface FindOptions extends GlobalOptions {
  readonly limit?: number;
}

function showFind(answer: FindAnswer): void {
  sayWords(answer.sentence);
  for (const hit of answer.hits) {
    say();
    const kind = hit.label === "Part" ? "" : ` (${hit.label.toLowerCase()})`;
    sayWords(`${hit.name}${kind}: ${hit.detail}`, "  ");
    if (hit.aboard?.length === 0) say("  none aboard");
    for (const lot of hit.aboard ?? []) sayWords(lot.words, "    ", "  ");
    for (const gear of hit.usedBy ?? []) sayWords(`for ${gear}`, "    ", "  ");
  }
  sayCautions(answer.cautions);
}

export function addFindCommand(program: Command): void {
  program
    .command("find")
    .description("where a spare is, how many, whether it is in date, and what takes it")
    .argument("<text...>", "part number, name, maker, locker or gear")
    .option("--limit <count>", "most answers, 50 when absent", readNumber)
    .action(async (words: readonly string[], _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<FindOptions>();
      const request = readRequest(
        findRequest,
        given({ text: words.join(" "), limit: options.limit }),
        "What was looked for",
        (pointer) => (pointer === "/text" ? "TEXT" : pointer.replace("/", "--")),
      );
      const graph = await openForReading(options);
      try {
        if (graph.notice !== undefined) sayAside(graph.notice);
        const answer = await findSpares(graph.store, request, today());
        if (options.json === true) sayDocument(answer);
        else showFind(answer);
        if (answer.hits.length === 0) process.exitCode = 1;
      } finally {
        await graph.close();
      }
    });
}
