import type { Command } from "commander";
import {
  dueRequest,
  type LotMovement,
  stowRequest,
  type UseAnswer,
  useRequest,
} from "../contract/stock.contract.ts";
import { listDue } from "../plans/list-due.ts";
import { readRequest } from "../plans/read-request.ts";
import { reckonHistories } from "../plans/stock/reckon-histories.ts";
import { stowPieces } from "../plans/stock/stow-pieces.ts";
import { usePieces } from "../plans/stock/use-pieces.ts";
import { type GlobalOptions, openExisting, openForReading } from "./open-graph.ts";
import { given, readNumber } from "./read-options.ts";
import { commandWriter, runPlan } from "./run-plan.ts";
import { sayCautions, sayNotices, sayWords } from "./say.ts";
import { showDue } from "./show-due.ts";
import { today } from "./today.ts";
import {
  addWhatIfOptions,
  type WhatIfOptions,
  whatIfMember,
  whatIfOptionName,
} from "./what-if-options.ts";

interface StowOptions extends GlobalOptions {
  readonly vessel?: string;
  readonly from?: string;
  readonly made?: string;
  readonly expires?: string;
  readonly condition?: string;
  readonly lot?: string;
  readonly new?: boolean;
}
interface UseOptions extends GlobalOptions {
  readonly vessel?: string;
  readonly from?: string;
  readonly for?: string;
  readonly why?: string;
  readonly service?: string;
  readonly hours?: number;
  readonly since?: string;
  readonly outOfDate?: boolean;
  readonly note?: string;
}
interface DueOptions extends GlobalOptions, WhatIfOptions {
  readonly vessel?: string;
  readonly until?: string;
}

const optionNames: Readonly<Record<string, string>> = {
  "/part": "PART",
  "/quantity": "QUANTITY",
  "/place": "PLACE",
  "/lotCode": "--lot",
  "/newPlace": "--new",
  "/outOfDate": "--out-of-date",
};
const optionName = (pointer: string): string =>
  optionNames[pointer] ?? whatIfOptionName(pointer) ?? pointer.replace("/", "--");

const sayMovements = (lots: readonly LotMovement[]): void => {
  for (const lot of lots) sayWords(lot.words, "    ", "  ");
};
const sayUndo = (sequence: number | null): void => {
  if (sequence !== null)
    sayWords(`Change ${sequence}; \`sparewright undo ${sequence}\` takes it back.`);
};

/** `stow`, `use`, `reckon`, `due`: what is put away, taken out, and falls due. */
export function addStockCommands(program: Command): void {
  addStow(program);
  addUse(program);
  addDue(program);
}

function addStow(program: Command): void {
  program
    .command("stow")
    .description("put pieces of a part away in a locker, or move them there with --from")
    .argument("<part>", "id or part number")
    .argument("<quantity>", "pieces", readNumber)
    .argument("<place...>", 'locker, such as Box 3 or "Saloon > Port settee > Box 3", or a vessel')
    .option("--vessel <name>", "where several vessels have such a locker")
    .option("--from <place>", "move them: the place, or the lot's id, they are in now")
    .option("--made <date>", "day of making")
    .option("--expires <date>", "last day of use, as on the packet")
    .option("--condition <state>", "new, serviceable, doubtful or unserviceable")
    .option("--lot <mark>", "batch mark on the packet")
    .option("--new", "make the locker if there is none")
    .action(
      async (
        part: string,
        quantity: number,
        place: readonly string[],
        _options: unknown,
        command: Command,
      ) => {
        const options = command.optsWithGlobals<StowOptions>();
        const { vessel, from, made, expires, condition } = options;
        const asked = given({
          part,
          quantity,
          place: place.join(" "),
          vessel,
          from,
          made,
          expires,
          condition,
          lotCode: options.lot,
          newPlace: options.new,
        });
        const request = readRequest(stowRequest, asked, "What is stowed", optionName);
        await runPlan(
          options,
          openExisting,
          (store) => stowPieces(store, request, today(), commandWriter()),
          (answer) => {
            sayWords(answer.sentence);
            sayMovements(answer.taken);
            sayMovements(answer.lots);
            sayNotices(answer.notices);
            sayUndo(answer.sequence);
            sayCautions(answer.cautions);
          },
        );
      },
    );
}

function showUse(answer: UseAnswer): void {
  sayWords(answer.sentence);
  sayMovements(answer.taken);
  sayWords(answer.historyWords);
  if (answer.service !== null) sayWords(`${answer.service.name} counts as done today.`);
  sayNotices(answer.notices);
  sayUndo(answer.sequence);
  sayCautions(answer.cautions);
}

function addUse(program: Command): void {
  program
    .command("use")
    .description(
      "take pieces, first out of date first, and write the use down so that demand learns",
    )
    .argument("<part>", "id or part number")
    .argument("<quantity>", "pieces", readNumber)
    .option("--for <item>", "the fitted item it was used for")
    .option(
      "--why <reason>",
      "failure, wear, service, lost or other; only a failure is learned from",
    )
    .option("--vessel <name>", "where several vessels carry it")
    .option("--from <place>", "a locker, or a lot's id; the first out of date when absent")
    .option("--service <name>", "the service it was used in, which counts as done today")
    .option("--hours <hours>", "hours the item has run by now", readNumber)
    .option("--since <date>", "day since when uses of this line have been written down, YYYY-MM-DD")
    .option("--out-of-date", "take pieces that do not count as aboard too")
    .option("--note <words>", "what happened, for the list of changes")
    .action(async (part: string, quantity: number, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<UseOptions>();
      const { vessel, from, why, service, hours, since, outOfDate, note } = options;
      const asked = given({
        part,
        quantity,
        vessel,
        from,
        for: options.for,
        why,
        service,
        hours,
        since,
        outOfDate,
        note,
      });
      const request = readRequest(useRequest, asked, "What is used", optionName);
      await runPlan(
        options,
        openExisting,
        (store) => usePieces(store, request, today(), commandWriter()),
        showUse,
      );
    });
  program
    .command("reckon")
    .description(
      "bring every own history forward to today: time in which nothing was used counts too",
    )
    .action(async (_options: unknown, command: Command) => {
      await runPlan(
        command.optsWithGlobals<GlobalOptions>(),
        openExisting,
        (store) => reckonHistories(store, today(), commandWriter()),
        (answer) => {
          sayWords(answer.sentence);
          for (const { model, part, words } of answer.shown)
            sayWords(`${model.name}, ${part.name}: ${words}`, "    ", "  ");
          sayUndo(answer.sequence);
        },
      );
    });
}

function addDue(program: Command): void {
  addWhatIfOptions(program.command("due"))
    .description("what falls out of date and which services fall due, with what each uses up")
    .option("--vessel <name>", "id or name; all vessels when absent")
    .option("--until <date>", "YYYY-MM-DD; arrival of the next crossing when absent")
    .action(async (_options: unknown, command: Command) => {
      const options = command.optsWithGlobals<DueOptions>();
      const request = readRequest(
        dueRequest,
        given({ vessel: options.vessel, until: options.until, whatIf: whatIfMember(options) }),
        "What was asked",
        optionName,
      );
      await runPlan(options, openForReading, (store) => listDue(store, request, today()), showDue);
    });
}
