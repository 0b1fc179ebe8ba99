import {
  identifyingTypes,
  type NodeLabel,
  nodeKey,
  type RelationshipType,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import type { NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import type { ChangeAnswer, CreateRequest } from "../../contract/records.contract.ts";
import { Problem, type ProblemPlace } from "../../errors/problem.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { endByWord, labelByWord, recordById, refuseJournal, typeByWord } from "./find-record.ts";
import { freeId } from "./free-id.ts";
import { changesBetween, declaredOf } from "./property-words.ts";
import { readValues } from "./read-values.ts";
import { ownName, RecordNames } from "./record-names.ts";
import { type Writer, writeChange } from "./write-record.ts";

/**
 * Makes a record with its values and relationships, as one change that can be undone. What it is told apart by must be
 * given: a part's maker, an item's vessel. Errors: `input-invalid`, `not-found` (what a relationship leads to),
 * `key-taken` (facts: the record that has the name).
 */
export async function createRecord(
  store: GraphStore,
  request: CreateRequest,
  writer: Writer,
): Promise<ChangeAnswer> {
  const label = labelByWord(request.label);
  refuseJournal({ label });
  const { set, notes } = readValues(label, request.set);
  const leads = await leadsOf(store, label, request.links ?? {});
  refuseMissing(label, set, leads);
  const key = nodeKey(label, set, (type) => leads.get(type)?.key);
  const taken = await store.nodeByKey(label, key);
  if (taken !== undefined) {
    const title = await new RecordNames(store).title(taken);
    throw new Problem(
      "key-taken",
      `A ${label} must be told apart from all others; ${title} (${taken.id}) is there already. Edit that one, or choose another name.`,
      { facts: { subject: taken.id } },
    );
  }
  const id = await freeId(store, label, key);
  const links = [...leads].map(
    ([type, to]): ProposedChange => ({
      kind: "create-link",
      type,
      from: id,
      to: to.id,
      properties: {},
    }),
  );
  const names = new RecordNames(store);
  const path: string[] = [];
  for (const type of identifyingTypes(label)) {
    const owner = leads.get(type);
    if (owner !== undefined) path.push(...(await names.path(owner)));
  }
  const name = [...path, ownName({ id, label, properties: set })].join(" / ");
  const { sequence } = await writeChange(
    store,
    [{ kind: "create-node", label, id, key, properties: set }, ...links],
    writer,
    `${label} ${name} added`,
  );
  const record = await new RecordNames(store).document(await recordById(store, id));
  return {
    sentence: `${label} ${record.title} is added (${id}).`,
    sequence,
    record,
    changes: changesBetween(label, {}, set),
    notes: [...notes],
  };
}

async function leadsOf(
  store: GraphStore,
  label: NodeLabel,
  links: Readonly<Record<string, string>>,
): Promise<ReadonlyMap<RelationshipType, NodeRecord>> {
  const leads = new Map<RelationshipType, NodeRecord>();
  for (const [word, target] of Object.entries(links)) {
    const type = typeByWord(word);
    if (!relationshipDeclaration(type).from.includes(label)) {
      throw new Problem(
        "input-invalid",
        `${type} leaves ${relationshipDeclaration(type).from.join(" or ")}; received it for a ${label}. Leave it out, or add it with link.`,
        { places: [{ pointer: `/links/${type}`, detail: "does not leave this label" }] },
      );
    }
    leads.set(type, await endByWord(store, type, "to", target));
  }
  return leads;
}

/** Errors: `input-invalid`, naming everything that must be given and was not. */
function refuseMissing(
  label: NodeLabel,
  set: Readonly<Record<string, unknown>>,
  leads: ReadonlyMap<RelationshipType, NodeRecord>,
): void {
  const places: ProblemPlace[] = [];
  for (const [property, { required, meaning }] of Object.entries(declaredOf(label))) {
    if (required && set[property] === undefined)
      places.push({ pointer: `/set/${property}`, detail: `must be given: ${meaning}` });
  }
  for (const type of identifyingTypes(label)) {
    if (!leads.has(type)) {
      const to = relationshipDeclaration(type).to.join(" or ");
      places.push({ pointer: `/links/${type}`, detail: `must name its ${to} (${type}=NAME)` });
    }
  }
  if (places.length === 0) return;
  const words = places.map(({ pointer, detail }) => `${pointer.split("/").at(-1)} ${detail}`);
  throw new Problem(
    "input-invalid",
    `A new ${label} needs what it is told apart by, and not all was given: ${words.join("; ")}. Add it.`,
    { places },
  );
}
