import type { ImportAnswer } from "../contract/import.contract.ts";
import { groupDigits, plural } from "../plans/words.ts";
import { say, sayHeading, sayNotices, sayWords, terminalWidth } from "./say.ts";
import { renderTable } from "./table.ts";

const mostFaults = 20;
const mostLines = 6;
const mostChanges = 20;

function showColumns(answer: ImportAnswer): void {
  sayHeading("Columns");
  say(
    renderTable(
      [
        { header: "Column", align: "left", flexible: true, cell: (column) => column.header },
        {
          header: "Understood as",
          align: "left",
          flexible: true,
          cell: (column) => column.property ?? "kept with its row, not interpreted",
        },
        {
          header: "Sure %",
          align: "right",
          cell: (column) =>
            column.byHand
              ? "by hand"
              : column.property === null
                ? ""
                : String(Math.floor(100 * column.confidence)),
        },
        {
          header: "For example",
          align: "left",
          flexible: true,
          cell: ({ sample }) =>
            sample.find((text) => /[\p{L}\p{N}]/u.test(text)) ?? sample[0] ?? "",
        },
      ],
      answer.columns,
      terminalWidth(),
    ),
  );
}

type Fault = ImportAnswer["faults"][number];

/** Faults of one rule in one column together, in the order of their first lines. */
function groupFaults(faults: readonly Fault[]): readonly { first: Fault; lines: number[] }[] {
  const groups = new Map<string, { first: Fault; lines: number[] }>();
  for (const fault of faults) {
    const key = [fault.column, fault.rule, fault.remedy].join("\n");
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { first: fault, lines: [fault.line] });
    else group.lines.push(fault.line);
  }
  return [...groups.values()];
}

function showFaults(answer: ImportAnswer): void {
  if (answer.faults.length === 0) return;
  sayHeading("Rows to look at");
  const groups = groupFaults(answer.faults).slice(0, mostFaults);
  for (const { first, lines } of groups) {
    const count = lines.length - mostLines;
    const named = lines.slice(0, mostLines).join(", ") + (count > 0 ? ` and ${count} more` : "");
    const where = lines.length === 1 ? `line ${named}` : `lines ${named}`;
    const place = first.column === "" ? where : `${where}, ${first.column}`;
    const received = lines.length === 1 ? "Received" : `Received on line ${first.line}`;
    sayWords(
      `• ${place} (${first.severity}): ${first.rule} ${received} "${first.value}". ${first.remedy}`,
      "  ",
    );
  }
  const rest = answer.faultsTotal - groups.reduce((sum, { lines }) => sum + lines.length, 0);
  if (rest > 0)
    sayWords(`and ${groupDigits(rest)} more; --rejected FILE writes all rejected rows.`);
}

function showChanges(answer: ImportAnswer): void {
  if (answer.committed || answer.changes.length === 0) return;
  sayHeading("Changes");
  for (const change of answer.changes.slice(0, mostChanges)) {
    const values = [change.before, change.after].filter((value) => value !== undefined).join(" → ");
    sayWords(`• ${change.kind}: ${change.subject}${values === "" ? "" : ` (${values})`}`, "  ");
  }
  const rest = answer.changesTotal - Math.min(mostChanges, answer.changes.length);
  if (rest > 0) sayWords(`and ${groupDigits(rest)} more.`);
}

/** An import on the terminal: the answer, how the columns were read, what changes, what was rejected. */
export function showImport(answer: ImportAnswer): void {
  const { file, rows } = answer;
  sayWords(answer.sentence);
  sayWords(
    `${file.name}: ${answer.listKind} list, ${file.encoding}, parted by ${file.delimiter}; ${plural(rows.read, "row")} read = ${groupDigits(rows.accepted)} accepted + ${groupDigits(rows.rejected)} rejected + ${groupDigits(rows.skipped)} skipped.`,
  );
  showColumns(answer);
  if (answer.records.length > 0) {
    sayHeading(answer.committed ? "Taken in" : "Would be taken in");
    say(
      renderTable(
        [
          { header: "Record", align: "left", cell: (row) => row.label },
          { header: "New", align: "right", cell: (row) => groupDigits(row.created) },
          { header: "Changed", align: "right", cell: (row) => groupDigits(row.changed) },
          { header: "Unchanged", align: "right", cell: (row) => groupDigits(row.unchanged) },
          { header: "In conflict", align: "right", cell: (row) => groupDigits(row.conflict) },
        ],
        answer.records,
        terminalWidth(),
      ),
    );
  }
  showChanges(answer);
  showFaults(answer);
  sayNotices(answer.notices);
  if (answer.import !== undefined) say(`\nTo take it back: sparewright undo ${answer.import.id}`);
}
