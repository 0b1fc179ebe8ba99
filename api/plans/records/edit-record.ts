import { type RelationshipType, relationshipDeclaration } from "../../../graph-schema/index.ts";
import type { NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import type { ChangeAnswer, EditRequest, ValueChange } from "../../contract/records.contract.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { endByWord, recordById, refuseJournal, typeByWord } from "./find-record.ts";
import { followingKeys, keyWith } from "./key-changes.ts";
import { changesBetween, changesInWords } from "./property-words.ts";
import { readValues, refuseWithout } from "./read-values.ts";
import { ownName, RecordNames } from "./record-names.ts";
import { type Writer, writeChange } from "./write-record.ts";

interface Relinking {
  readonly changes: readonly ProposedChange[];
  readonly leads: ReadonlyMap<RelationshipType, NodeRecord>;
  readonly told: readonly ValueChange[];
}

/**
 * Changes a record's values, and where its single relationships lead, as one change that can be undone. Text is read
 * as the importer reads a cell. A new name is carried on to what is told apart by it.
 * Errors: `not-found`, `input-invalid` (every value at fault), `write-stale` (facts: both versions), `key-taken`.
 */
export async function editRecord(
  store: GraphStore,
  id: string,
  request: EditRequest,
  writer: Writer,
): Promise<ChangeAnswer> {
  const node = await recordById(store, id);
  refuseJournal(node);
  const { set, clear, notes } = readValues(node.label, request.set ?? {});
  const after: Record<string, (typeof set)[string]> = { ...node.properties, ...set };
  for (const name of clear) delete after[name];
  refuseWithout(node.label, `${node.label} ${ownName(node)}`, after);
  const relinking = await relinkings(store, node, request.links ?? {});
  const key = await keyWith(store, node, after, relinking.leads);
  const changes = [...changesBetween(node.label, node.properties, after), ...relinking.told];
  const names = new RecordNames(store);
  const what = `${node.label} ${await names.title(node)}: ${changesInWords(changes)}`;
  const { sequence, receipt } = await writeChange(
    store,
    [
      { kind: "update-node", id: node.id, basedOn: request.basedOn, set, clear, key },
      ...relinking.changes,
      ...(await followingKeys(store, node, key)),
    ],
    writer,
    what,
  );
  const carried = Math.max(0, receipt.nodesChanged - 1);
  return {
    sentence:
      sequence === null
        ? `${node.label} ${ownName(node)} says so already; nothing was changed.`
        : `${what}.${carried > 0 ? ` What is told apart by its name follows: ${carried} more.` : ""}`,
    sequence,
    record: await new RecordNames(store).document(await recordById(store, id)),
    changes,
    notes: [...notes],
  };
}

/** Single relationships to lead elsewhere: the old one goes, the new one comes. */
async function relinkings(
  store: GraphStore,
  node: NodeRecord,
  links: NonNullable<EditRequest["links"]>,
): Promise<Relinking> {
  const changes: ProposedChange[] = [];
  const told: ValueChange[] = [];
  const leads = new Map<RelationshipType, NodeRecord>();
  for (const [word, target] of Object.entries(links)) {
    const type = typeByWord(word);
    const declared = relationshipDeclaration(type);
    if (declared.each !== "one" || !declared.from.includes(node.label)) {
      throw new Problem(
        "input-invalid",
        `An edit may lead elsewhere only a relationship of which a ${node.label} has one; received ${type}. Use link and unlink for others.`,
        { places: [{ pointer: `/links/${type}`, detail: "not a single relationship of it" }] },
      );
    }
    const to = await endByWord(store, type, "to", target);
    const [before] = await store.linksFrom(node.id, type);
    if (before?.to === to.id) continue;
    if (type === "IS_WITHIN") await refuseRing(store, node, to);
    const was = before === undefined ? undefined : await store.node(before.to);
    leads.set(type, to);
    told.push({
      property: type,
      before: was === undefined ? null : ownName(was),
      after: ownName(to),
    });
    if (before !== undefined) {
      const { from, to: old, version } = before;
      changes.push({ kind: "delete-link", type, from, to: old, basedOn: version });
    }
    changes.push({ kind: "create-link", type, from: node.id, to: to.id, properties: {} });
  }
  return { changes, leads, told };
}

/** Errors: `input-invalid` where a locker would come to be within itself. */
export async function refuseRing(
  store: GraphStore,
  locker: NodeRecord,
  into: NodeRecord,
): Promise<void> {
  let at: NodeRecord | undefined = into;
  for (let steps = 0; at !== undefined && steps < 100; steps++) {
    if (at.id === locker.id) {
      throw new Problem(
        "input-invalid",
        `A locker must not be within itself, directly or through others; received "${ownName(into)}" for "${ownName(locker)}". Choose another place.`,
        { places: [{ pointer: "/links/IS_WITHIN", detail: "a ring" }] },
      );
    }
    const to: NodeRecord["id"] | undefined = (await store.linksFrom(at.id, "IS_WITHIN"))[0]?.to;
    at = to === undefined ? undefined : await store.node(to);
  }
}
