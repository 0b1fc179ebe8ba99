import type { JournalLine } from "../../contract/records.contract.ts";
import type { GraphStore, JournalEntry } from "../../store/graph-store.ts";
import { changesBetween } from "../records/property-words.ts";
import { RecordNames } from "../records/record-names.ts";

/** Journal entries with their subjects by name and their values in words, newest first as given. */
export async function journalLines(
  store: GraphStore,
  entries: readonly JournalEntry[],
  names: RecordNames = new RecordNames(store),
): Promise<JournalLine[]> {
  const lines: JournalLine[] = [];
  for (const entry of entries) {
    const { subject } = entry;
    const words =
      subject.kind === "node"
        ? `${subject.id.slice(0, subject.id.indexOf(":"))} ${await nodeWords(names, entry)}`
        : `${await names.titleOf(subject.from)} ${subject.type} ${await names.titleOf(subject.to)}`;
    const run = entry.importId === undefined ? undefined : await names.node(entry.importId);
    lines.push({
      sequence: entry.sequence,
      at: entry.at,
      who: entry.who,
      kind: entry.kind,
      subject: words,
      ...(run === undefined
        ? {}
        : {
            import: {
              id: run.id,
              name: String(run.properties["fileName"] ?? run.properties["reference"] ?? run.id),
            },
          }),
      changes: changesBetween(
        subject.kind === "node"
          ? (subject.id.slice(0, subject.id.indexOf(":")) as Parameters<typeof changesBetween>[0])
          : subject.type,
        entry.before ?? {},
        entry.after ?? {},
      ),
    });
  }
  return lines;
}

/** A record that is gone is called by the name it had. */
async function nodeWords(names: RecordNames, entry: JournalEntry): Promise<string> {
  if (entry.subject.kind !== "node") return "";
  const { id } = entry.subject;
  const node = await names.node(id);
  if (node !== undefined) return names.title(node);
  const had = entry.after ?? entry.before ?? {};
  return String(had["partNumber"] ?? had["name"] ?? had["position"] ?? had["designation"] ?? id);
}
