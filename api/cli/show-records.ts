import type {
  ChangeAnswer,
  JournalLine,
  LinkAnswer,
  PropertyDocument,
  RecordAnswer,
  RecordsAnswer,
  ValueChange,
} from "../contract/records.contract.ts";
import { unitWords } from "../plans/records/property-words.ts";
import { groupDigits, moneyWords } from "../plans/words.ts";
import { say, sayCautions, sayHeading, sayWords, terminalWidth } from "./say.ts";
import { renderTable, type TableColumn } from "./table.ts";

type Row = RecordsAnswer["rows"][number];

const mostColumns = 5;

/** A value as a person reads it, without its unit where the heading says it. */
const cellText = (
  { kind }: PropertyDocument,
  values: Readonly<Record<string, unknown>>,
  name: string,
) => {
  const value = values[name];
  const currency = values["currency"];
  if (value === undefined || value === null) return "";
  if (kind === "money" && typeof value === "number" && typeof currency === "string")
    return moneyWords(value, currency);
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "object" ? JSON.stringify(value) : String(value);
};

const valuesInWords = (
  fields: readonly PropertyDocument[],
  values: Readonly<Record<string, unknown>>,
): readonly (readonly [PropertyDocument, string])[] =>
  fields
    .filter(({ property }) => values[property] !== undefined)
    .map((field) => [
      field,
      `${field.property} ${cellText(field, values, field.property)}${unitWords(field.unit, values[field.property])}`,
    ]);

/** A page of records as a table: what tells each apart, its fullest properties, its id. */
export function showRecords(answer: RecordsAnswer): void {
  sayWords(answer.sentence);
  if (answer.rows.length > 0) {
    const named = answer.rows[0];
    const filled = answer.columns
      .filter(({ property }) => answer.rows.some((row) => row.properties[property] !== undefined))
      .filter(({ property }) => named?.properties[property] !== named?.name)
      .slice(0, mostColumns);
    const columns: TableColumn<Row>[] = [
      { header: answer.label, align: "left", flexible: true, cell: (row) => row.title },
      ...filled.map(
        (field, at): TableColumn<Row> => ({
          header: `${field.property}${unitWords(field.unit)}`,
          align: ["integer", "real", "money"].includes(field.kind) ? "right" : "left",
          flexible: field.kind === "text",
          dispensable: at + 1,
          cell: (row) => cellText(field, row.properties, field.property),
        }),
      ),
      { header: "Id", align: "left", cell: (row) => row.id },
    ];
    say();
    say(renderTable(columns, answer.rows, terminalWidth()));
    const next = answer.offset + answer.rows.length;
    if (next < answer.total) {
      sayWords(`${groupDigits(answer.total - next)} more: --offset ${next}`);
    }
  }
  sayCautions(answer.cautions);
}

const changeWords = ({ property, before, after }: ValueChange): string =>
  before === null
    ? `${property}: ${after ?? "nothing"}`
    : `${property}: ${before} → ${after ?? "nothing"}`;

/** Journal entries, each with what was changed. */
export function showJournal(lines: readonly JournalLine[]): void {
  for (const line of lines) {
    const from = line.import === undefined ? "" : `, import of ${line.import.name}`;
    sayWords(
      `${line.at.slice(0, 16).replace("T", " ")} ${line.who}${from}: ${line.subject} ${line.kind}`,
      "    ",
      "  ",
    );
    for (const change of line.changes.slice(0, 12))
      sayWords(changeWords(change), "        ", "      ");
  }
}

/** A record whole: values, relationships both ways, journal. */
export function showRecord(answer: RecordAnswer): void {
  const { record } = answer;
  sayWords(answer.sentence);
  sayWords(`${record.id}: ${answer.meaning}.`);
  sayHeading("Values");
  for (const [{ meaning }, words] of valuesInWords(answer.fields, record.properties))
    sayWords(`${words} (${meaning})`, "    ", "  ");
  for (const [header, text] of Object.entries(record.extra)) {
    sayWords(`${header}: ${text} (column kept as it was)`, "    ", "  ");
  }
  sayHeading("Relationships");
  for (const { type, direction, total, shown, fields } of answer.links) {
    for (const link of shown.slice(0, 20)) {
      const other = direction === "out" ? link.to : link.from;
      const values = valuesInWords(fields, link.properties)
        .map(([, words]) => words)
        .join(", ");
      sayWords(
        `${direction === "out" ? `${type} →` : `← ${type}`} ${other.label} ${other.name} (${other.id})${values === "" ? "" : `: ${values}`} [version ${link.version}]`,
        "    ",
        "  ",
      );
    }
    if (total > 20) sayWords(`and ${groupDigits(total - 20)} more of ${type}`, "    ", "  ");
  }
  sayHeading("Journal");
  showJournal(answer.journal);
  sayCautions(answer.cautions);
}

/** What an edit did, and how it is taken back. */
export function showChange(answer: ChangeAnswer | LinkAnswer): void {
  sayWords(answer.sentence);
  for (const change of answer.changes) sayWords(changeWords(change), "    ", "  ");
  for (const note of answer.notes) sayWords(`• ${note}`, "  ");
  if (answer.sequence !== null) {
    sayWords(`Change ${answer.sequence}; \`sparewright undo ${answer.sequence}\` takes it back.`);
  }
}
