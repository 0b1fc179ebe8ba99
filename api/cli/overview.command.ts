import type { Command } from "commander";
import { type ReadinessAnswer, readinessRequest } from "../contract/readiness.contract.ts";
import { readRequest } from "../plans/read-request.ts";
import { surveyReadiness } from "../plans/survey-readiness.ts";
import { type GlobalOptions, openForReading } from "./open-graph.ts";
import { given } from "./read-options.ts";
import { runPlan } from "./run-plan.ts";
import { sayCautions, sayHeading, sayNotices, sayWords } from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { today } from "./today.ts";
import {
  addWhatIfOptions,
  type WhatIfOptions,
  whatIfMember,
  whatIfOptionName,
} from "./what-if-options.ts";

interface OverviewOptions extends GlobalOptions, WhatIfOptions {
  readonly vessel?: string;
}

function showReadiness(answer: ReadinessAnswer): void {
  sayWords(answer.sentence);
  for (const { vessel, crossing, sentence, attention } of answer.vessels) {
    sayHeading(vessel.name);
    const away =
      crossing.daysAway >= 0 ? `in ${crossing.daysAway} days` : `${-crossing.daysAway} days ago`;
    sayWords(`${crossing.name}, leaving ${crossing.departs} (${away}).`);
    sayWords(sentence);
    for (const { weight, words, follow } of attention)
      sayWords(`• ${weight}: ${words} \`${follow.command}\``, "  ");
  }
  if (answer.standardise !== null) {
    sayHeading("Standardising");
    sayWords(`${answer.standardise.words} \`${answer.standardise.follow.command}\``);
  }
  showComparison(answer.comparison);
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}

export function addOverviewCommand(program: Command): void {
  addWhatIfOptions(program.command("overview"))
    .description("what needs attention, per vessel, before its next crossing")
    .option("--vessel <name>", "id or name; every vessel when absent")
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<OverviewOptions>();
      const request = readRequest(
        readinessRequest,
        given({ vessel: options.vessel, whatIf: whatIfMember(options) }),
        "What was asked",
        (pointer) => whatIfOptionName(pointer) ?? pointer.replace("/", "--"),
      );
      await runPlan(
        options,
        openForReading,
        (store) => surveyReadiness(store, request, today()),
        showReadiness,
      );
    });
}
