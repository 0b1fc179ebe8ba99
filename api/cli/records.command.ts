import type { Command } from "commander";
import {
  createRequest,
  deleteRequest,
  editRequest,
  linkRequest,
  recordsRequest,
} from "../contract/records.contract.ts";
import { readRequest } from "../plans/read-request.ts";
import { createRecord } from "../plans/records/create-record.ts";
import { deleteRecord, showDependants } from "../plans/records/delete-record.ts";
import { editRecord } from "../plans/records/edit-record.ts";
import { recordByWord } from "../plans/records/find-record.ts";
import { linkRecords, unlinkRecords } from "../plans/records/link-records.ts";
import { listRecords } from "../plans/records/list-records.ts";
import { showRecord } from "../plans/records/show-record.ts";
import { type GlobalOptions, openExisting, openForReading, openForWriting } from "./open-graph.ts";
import { readAssignments } from "./read-assignments.ts";
import { given, readNumber } from "./read-options.ts";
import { commandWriter, runPlan } from "./run-plan.ts";
import { say, sayWords, terminalWidth } from "./say.ts";
import { showRecord as sayRecord, showChange, showRecords } from "./show-records.ts";
import { renderTable } from "./table.ts";

interface ListOptions extends GlobalOptions {
  readonly sort?: string;
  readonly text?: string;
  readonly where?: readonly string[];
  readonly offset?: number;
  readonly limit?: number;
}
interface VersionOptions extends GlobalOptions {
  /** `--based-on`: the version a change was made on. */
  readonly basedOn?: number;
}
interface DeleteOptions extends GlobalOptions {
  readonly yes?: boolean;
}

const what = "What was given";
const based = [
  "--based-on <version>",
  "the version you looked at; the newest when absent",
] as const;

/** `list`, `show`, `create`, `edit`, `link`, `unlink`, `delete`: any record of the graph, as the schema declares it. */
export function addRecordCommands(program: Command): void {
  addReading(program);
  addWriting(program);
  addLinking(program);
}

function addReading(program: Command): void {
  program
    .command("list")
    .description("the records of one kind: Part, StockLot, FittedItem, Locker, ...")
    .argument("<label>", "kind of record")
    .option("--text <words>", "only records that hold these words")
    .option("--where <condition...>", 'such as "massKg>=2 kg", "description~seal", "expires="')
    .option("--sort <property>", "a property; -property for the greatest first")
    .option("--offset <count>", "records to pass over", readNumber)
    .option("--limit <count>", "most records, 100 when absent", readNumber)
    .action(async (label: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<ListOptions>();
      const { sort, text, where, offset, limit } = options;
      const asked = given({ label, sort, text, where, offset, limit });
      const request = readRequest(recordsRequest, asked, "What was asked", (pointer) =>
        pointer.replace("/", "--"),
      );
      await runPlan(options, openForReading, (store) => listRecords(store, request), showRecords);
    });
  program
    .command("show")
    .description("one record: its values, its relationships both ways, its journal")
    .argument("<record...>", "id or name, such as 0040-07 or Oakhollow / 0040-07")
    .action(async (words: readonly string[], _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<GlobalOptions>();
      const ask = async (store: Parameters<typeof showRecord>[0]) =>
        showRecord(store, (await recordByWord(store, words.join(" "))).id);
      await runPlan(options, openForReading, ask, sayRecord);
    });
}

function addWriting(program: Command): void {
  program
    .command("create")
    .description("make a record; what it is told apart by must be given")
    .argument("<label>", "kind of record")
    .argument("[values...]", 'such as partNumber=0040-08 massKg="20 g" MADE_BY=Oakhollow')
    .action(
      async (label: string, values: readonly string[], _options: unknown, command: Command) => {
        const options = command.optsWithGlobals<GlobalOptions>();
        const request = readRequest(createRequest, { label, ...readAssignments(values) }, what);
        const ask = (store: Parameters<typeof createRecord>[0]) =>
          createRecord(store, request, commandWriter());
        await runPlan(options, openForWriting, ask, showChange);
      },
    );
  program
    .command("edit")
    .description("change a record's values; units, prices and dates as in a spreadsheet's cell")
    .argument("<record>", "id or name")
    .argument("[values...]", 'such as massKg="2.5 lb"; "massKg=" takes the value away')
    .option(...based, readNumber)
    .action(
      async (word: string, values: readonly string[], _options: unknown, command: Command) => {
        const options = command.optsWithGlobals<VersionOptions>();
        const assignments = readAssignments(values);
        const ask = async (store: Parameters<typeof editRecord>[0]) => {
          const node = await recordByWord(store, word);
          const basedOn = options.basedOn ?? node.version;
          const request = readRequest(editRequest, { basedOn, ...assignments }, what);
          return editRecord(store, node.id, request, commandWriter());
        };
        await runPlan(options, openExisting, ask, showChange);
      },
    );
  program
    .command("delete")
    .description("show what goes with a record; with --yes, delete it")
    .argument("<record...>", "id or name")
    .option("--yes", "delete it, and everything that cannot be without it")
    .action(async (words: readonly string[], _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<DeleteOptions>();
      const dependantsOf = async (store: Parameters<typeof showDependants>[0]) =>
        showDependants(store, (await recordByWord(store, words.join(" "))).id);
      if (options.yes !== true) {
        await runPlan(options, openExisting, dependantsOf, (answer) => {
          sayWords(answer.sentence);
          if (answer.shown.length > 0) {
            say(
              renderTable(
                [
                  { header: "Goes with it", align: "left", cell: (row) => row.label },
                  { header: "Name", align: "left", flexible: true, cell: (row) => row.name },
                  { header: "Id", align: "left", cell: (row) => row.id },
                ],
                answer.shown,
                terminalWidth(),
              ),
            );
          }
          sayWords("Nothing was deleted. Repeat with --yes to delete it.");
        });
        return;
      }
      const ask = async (store: Parameters<typeof deleteRecord>[0]) => {
        const { record, records } = await dependantsOf(store);
        const request = readRequest(deleteRequest, { version: record.version, records }, what);
        return deleteRecord(store, record.id, request, commandWriter());
      };
      await runPlan(options, openExisting, ask, (answer) => sayWords(answer.sentence));
    });
}

function addLinking(program: Command): void {
  program
    .command("link")
    .description("make a relationship, or change its values")
    .argument("<from>", "id or name")
    .argument("<type>", "such as USES, OFFERS, INTERCHANGES_WITH")
    .argument("<to>", "id or name")
    .argument("[values...]", 'such as quantity=4 priceMinor="30 USD"')
    .option(...based, readNumber)
    .action(
      async (
        from: string,
        type: string,
        to: string,
        values: readonly string[],
        _options: unknown,
        command: Command,
      ) => {
        const options = command.optsWithGlobals<VersionOptions>();
        const { set } = readAssignments(values);
        const ask = (store: Parameters<typeof linkRecords>[0]) => {
          const request = readRequest(linkRequest, given({ basedOn: options.basedOn, set }), what);
          return linkRecords(store, { from, type, to }, request, commandWriter(), true);
        };
        await runPlan(options, openExisting, ask, showChange);
      },
    );
  program
    .command("unlink")
    .description("take a relationship away")
    .argument("<from>", "id or name")
    .argument("<type>", "such as USES")
    .argument("<to>", "id or name")
    .option(...based, readNumber)
    .action(async (from: string, type: string, to: string, _options: unknown, command: Command) => {
      const options = command.optsWithGlobals<VersionOptions>();
      const ask = (store: Parameters<typeof unlinkRecords>[0]) =>
        unlinkRecords(store, { from, type, to }, options.basedOn, commandWriter());
      await runPlan(options, openExisting, ask, showChange);
    });
}
