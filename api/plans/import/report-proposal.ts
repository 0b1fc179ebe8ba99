import { createHash } from "node:crypto";
import {
  type ColumnMatch,
  type ImportNotice,
  listKinds,
  type Proposal,
  type RowFault,
  rejectedCsv,
  targets,
} from "../../../importers/index.ts";
import type { ImportReport } from "../../contract/import.contract.ts";
import { plural } from "../words.ts";

const mostFaults = 500;
const mostChanges = 200;
const samples = 3;
const longestSample = 80;

const delimiterNames: Readonly<Record<string, string>> = {
  ",": "comma",
  ";": "semicolon",
  "\t": "tab",
  "|": "pipe",
};

export const hashFile = (bytes: Uint8Array): string =>
  createHash("sha256").update(bytes).digest("hex");

type Rows = readonly (readonly string[])[];

/** The first few different values of a column among the rows it was judged by, cut short where they are long. */
function sampleOf(rows: Rows, column: number): string[] {
  const found = new Set<string>();
  for (const row of rows) {
    const text = row[column]?.trim();
    if (text) found.add(text.length > longestSample ? `${text.slice(0, longestSample)}…` : text);
    if (found.size >= samples) break;
  }
  return [...found];
}

function columnReport(rows: Rows, match: ColumnMatch): ImportReport["columns"][number] {
  const target = match.target === undefined ? undefined : targets.get(match.target);
  const meaning = match.ignored ? "Our own note on a rejected row; passed over" : target?.meaning;
  return {
    column: match.column,
    header: match.header,
    property: match.target ?? null,
    confidence: match.confidence,
    ...(meaning === undefined ? {} : { meaning }),
    sample: sampleOf(rows, match.column),
    byHand: match.byHand,
  };
}

const sentenceCase = (text: string): string => (/[.!?…]$/.test(text) ? text : `${text}.`);

const faultReport = (fault: RowFault): ImportReport["faults"][number] => ({
  line: fault.line,
  column: fault.column ?? "",
  rule: sentenceCase(fault.rule),
  value: fault.value,
  remedy: sentenceCase(fault.remedy),
  severity: "rejected",
});

function noticeReport(notice: ImportNotice): ImportReport["notices"][number] {
  const place = [
    notice.column === undefined ? "" : `column “${notice.column}”`,
    notice.line === undefined ? "" : `first on line ${notice.line}`,
    notice.count > 1 ? `${notice.count} times` : "",
  ].filter((piece) => piece !== "");
  return {
    code: notice.code,
    text: place.length === 0 ? notice.text : `${notice.text} (${place.join(", ")})`,
  };
}

function sentenceOf(proposal: Proposal, name: string, dryRun: boolean): string {
  const { rows, records } = proposal;
  const sum = (of: "created" | "changed"): number =>
    records.reduce((total, record) => total + record[of], 0);
  const [created, changed] = [sum("created"), sum("changed")];
  const rejected =
    rows.rejected === 0 ? "" : ` ${plural(rows.rejected, "row")} rejected, each with its reason.`;
  if (created + changed === 0) {
    return rows.accepted === 0
      ? `“${name}” changes nothing: no row could be accepted.${rejected}`
      : `“${name}” changes nothing: all its ${plural(rows.accepted, "accepted row")} say what is known already.${rejected}`;
  }
  const verb = dryRun ? "would add" : "added";
  const change = dryRun ? "change" : "changed";
  return `“${name}” ${verb} ${plural(created, "record")} and ${change} ${changed}, from ${plural(rows.accepted, "row")} of ${rows.read}.${rejected}`;
}

/** A proposal as the wire document tells it: columns, rows, records, the first changes and faults, notices. */
export function reportProposal(
  proposal: Proposal,
  source: { readonly name: string; readonly bytes: Uint8Array; readonly sha256: string },
  dryRun: boolean,
): ImportReport {
  const { table, matching, rows, records, sample, faults, notices, changeCount } = proposal;
  const judgedBy = table.sample();
  const possible = matching.kindScores.map(({ kind }) => kind);
  return {
    file: {
      name: source.name,
      bytes: source.bytes.byteLength,
      sha256: source.sha256,
      encoding: table.encoding,
      delimiter: delimiterNames[table.delimiter] ?? table.delimiter,
      titleLines: table.titleLines.length,
    },
    listKind: matching.kind,
    listKinds: possible.map((kind) => ({ kind, meaning: listKinds[kind].meaning })),
    columns: matching.columns.map((match) => columnReport(judgedBy, match)),
    rows: { ...rows },
    records: records.map((record) => ({ ...record })),
    changes: sample.slice(0, mostChanges).map((change) => ({ ...change })),
    changesTotal: changeCount,
    faults: faults.slice(0, mostFaults).map(faultReport),
    faultsTotal: faults.length,
    rejectedCsv: rejectedCsv(proposal) ?? null,
    sentence: sentenceOf(proposal, source.name, dryRun),
    notices: notices.map(noticeReport),
  };
}
