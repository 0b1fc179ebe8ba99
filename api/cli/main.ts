import { Command, CommanderError } from "commander";
import { addBackupCommand, addRestoreCommand } from "./backup.command.ts";
import { addChooseCommand } from "./choose.command.ts";
import { addCommonalityCommand } from "./commonality.command.ts";
import { addDoubtCommand } from "./doubt.command.ts";
import { addExportCommand } from "./export.command.ts";
import { addFindCommand } from "./find.command.ts";
import { addHistoryCommand } from "./history.command.ts";
import { addImportCommand } from "./import.command.ts";
import { addKitCommand } from "./kit.command.ts";
import { addMinimumsCommand } from "./minimums.command.ts";
import { addOrderCommand } from "./order.command.ts";
import { addOverviewCommand } from "./overview.command.ts";
import { packageVersion } from "./package-root.ts";
import { addPrepareCommand } from "./prepare.command.ts";
import { addReceiveCommand } from "./receive.command.ts";
import { addRecordCommands } from "./records.command.ts";
import { addServeCommand } from "./serve.command.ts";
import { showProblem } from "./show-problem.ts";
import { addSimulateCommand } from "./simulate.command.ts";
import { addStandardiseCommand } from "./standardise.command.ts";
import { addStockCommands } from "./stock.command.ts";
import { addSuppliersCommand } from "./suppliers.command.ts";
import { addUndoCommand } from "./undo.command.ts";
import { addVoyageCommand } from "./voyage.command.ts";

const program = new Command("sparewright")
  .description("Spares and parts commonality for boats that sail far from any chandler.")
  .version(packageVersion())
  .option("--db <file>", "database file (or SPAREWRIGHT_DB)")
  .option("--json", "print the document the HTTP API answers with")
  .option("--demo", "work on a private copy of the invented demo fleet")
  .exitOverride()
  .showHelpAfterError("`sparewright COMMAND --help` lists the options.");

for (const add of [
  addImportCommand,
  addUndoCommand,
  addHistoryCommand,
  addOverviewCommand,
  addCommonalityCommand,
  addChooseCommand,
  addStandardiseCommand,
  addSuppliersCommand,
  addOrderCommand,
  addReceiveCommand,
  addKitCommand,
  addDoubtCommand,
  addPrepareCommand,
  addVoyageCommand,
  addMinimumsCommand,
  addSimulateCommand,
  addFindCommand,
  addStockCommands,
  addRecordCommands,
  addExportCommand,
  addBackupCommand,
  addRestoreCommand,
  addServeCommand,
]) {
  add(program);
}
for (const command of program.commands) command.copyInheritedSettings(program);

// A reader that stops early (`| head`) is no failure.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? 0 : 2;
  } else {
    process.exitCode = showProblem(error);
  }
}
