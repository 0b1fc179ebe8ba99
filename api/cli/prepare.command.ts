import type { Command } from "commander";
import { massIn, massUnit, type UnitSystem } from "../../graph-schema/index.ts";
import {
  type PrepareAnswer,
  type PrepareJob,
  prepareRequest,
} from "../contract/prepare.contract.ts";
import { prepareDeparture } from "../plans/prepare-departure.ts";
import { readRequest } from "../plans/read-request.ts";
import { moneyWords } from "../plans/words.ts";
import { addKitOptions, type KitOptions, kitMembers, kitOptionName } from "./kit-options.ts";
import { openForReading } from "./open-graph.ts";
import {
  say,
  sayAside,
  sayCautions,
  sayDocument,
  sayHeading,
  sayNotices,
  sayWords,
  terminalWidth,
} from "./say.ts";
import { showComparison } from "./show-comparison.ts";
import { showProgress } from "./show-progress.ts";
import { renderTable, type TableColumn } from "./table.ts";
import { today } from "./today.ts";

export function addPrepareCommand(program: Command): void {
  addKitOptions(
    program
      .command("prepare")
      .description("services and replacements better done before leaving, and what each saves"),
  ).action(async (_options: unknown, command: Command) => {
    const options = command.optsWithGlobals<KitOptions>();
    const request = readRequest(
      prepareRequest,
      kitMembers(options),
      "The kit asked for",
      kitOptionName,
    );
    const graph = await openForReading(options);
    const { progress, finish } = showProgress();
    try {
      if (graph.notice !== undefined) sayAside(graph.notice);
      const answer = await prepareDeparture(graph.store, request, today(), {
        progress: (done, total) => progress("pieces of work tried", done, total),
      });
      finish();
      if (options.json === true) sayDocument(answer);
      else show(answer, request.units ?? "metric");
    } finally {
      finish();
      await graph.close();
    }
  });
}

const money = (of: (job: PrepareJob) => { minor: number; currency: string }) => (job: PrepareJob) =>
  moneyWords(of(job).minor, of(job).currency);

const columnsOf = (units: UnitSystem): readonly TableColumn<PrepareJob>[] => [
  { header: "Gear", align: "left", flexible: true, cell: (job) => job.item.name },
  {
    header: "Do",
    align: "left",
    flexible: true,
    cell: (job) => (job.kind === "service" ? job.what : `renew ${job.what}`),
  },
  {
    header: "Due",
    align: "left",
    cell: (job) => (job.assumed ? "not known" : job.overdue ? "overdue" : (job.dueOn ?? "")),
  },
  { header: "Saves", align: "right", cell: money((job) => job.saves.cost) },
  { header: "Pieces", align: "right", cell: (job) => String(job.saves.pieces) },
  {
    header: massUnit(units),
    align: "right",
    dispensable: 1,
    cell: (job) => String(Number(massIn(job.saves.massKg, units).toFixed(2))),
  },
  {
    header: "Uses ashore",
    align: "right",
    dispensable: 2,
    cell: money((job) => job.takesCost),
  },
];

function show(answer: PrepareAnswer, units: UnitSystem): void {
  sayWords(answer.sentence);
  if (answer.jobs.length > 0) {
    sayHeading("Do before you leave");
    say(renderTable(columnsOf(units), answer.jobs, terminalWidth()));
  }
  showComparison(answer.comparison, units);
  sayNotices(answer.notices);
  sayCautions(answer.cautions);
}
