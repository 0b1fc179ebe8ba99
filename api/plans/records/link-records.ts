import {
  identifyingTypes,
  type NodeId,
  type NodeLabel,
  type RelationshipType,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import type { LinkAnswer, LinkRequest } from "../../contract/records.contract.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { refuseRing } from "./edit-record.ts";
import { endByWord, typeByWord } from "./find-record.ts";
import { followingKeys, keyWith } from "./key-changes.ts";
import { changesBetween, changesInWords } from "./property-words.ts";
import { readValues, refuseWithout } from "./read-values.ts";
import { ownName, RecordNames } from "./record-names.ts";
import { linkDocument } from "./show-record.ts";
import { type Writer, writeChange } from "./write-record.ts";

/** A relationship as a person names it: type, and both ends by id or name. */
export interface NamedLink {
  readonly type: string;
  readonly from: string;
  readonly to: string;
}

interface FoundLink {
  readonly type: RelationshipType;
  readonly from: NodeRecord;
  readonly to: NodeRecord;
  readonly link: LinkRecord | undefined;
}

async function findLink(store: GraphStore, named: NamedLink): Promise<FoundLink> {
  const type = typeByWord(named.type);
  const from = await endByWord(store, type, "from", named.from);
  const to = await endByWord(store, type, "to", named.to);
  const link = (await store.linksFrom(from.id, type)).find((one) => one.to === to.id);
  return { type, from, to, link };
}

const words = ({ type, from, to }: FoundLink): string => `${ownName(from)} ${type} ${ownName(to)}`;

/**
 * Makes a relationship, or changes the values of one, as one change that can be undone. A single relationship
 * that leads elsewhere is led here. `takesNewest`: a change that names no version is based on the newest (the command
 * line reads and writes at once). Errors: `not-found`, `input-invalid`, `write-stale` (facts: both versions),
 * `key-taken`.
 */
export async function linkRecords(
  store: GraphStore,
  named: NamedLink,
  request: LinkRequest,
  writer: Writer,
  takesNewest = false,
): Promise<LinkAnswer> {
  const found = await findLink(store, named);
  const { type, from, to, link } = found;
  const basedOn = request.basedOn ?? (takesNewest ? link?.version : undefined);
  const { set, clear, notes } = readValues(type, request.set ?? {});
  const before = link?.properties ?? {};
  const after: Record<string, (typeof set)[string]> = { ...before, ...set };
  for (const name of clear) delete after[name];
  refuseWithout(type, words(found), after);
  const changes = changesBetween(type, before, after);
  const proposed =
    link === undefined && basedOn === undefined
      ? await newLink(store, found, after)
      : [updateOf(found, basedOn, set, clear)];
  const told = changesInWords(changes);
  const what = `${words(found)}${told === "" ? "" : `: ${told}`}`;
  const { sequence } = await writeChange(store, proposed, writer, what);
  const now = (await store.linksFrom(from.id, type)).find((one) => one.to === to.id);
  return {
    sentence:
      sequence === null ? `${words(found)} is so already; nothing was changed.` : `${what}.`,
    sequence,
    link: now === undefined ? null : await linkDocument(new RecordNames(store), now),
    changes,
    notes: [...notes],
  };
}

function updateOf(
  { type, from, to, link }: FoundLink,
  basedOn: number | undefined,
  set: LinkRecord["properties"],
  clear: readonly string[],
): ProposedChange {
  if (basedOn === undefined) {
    throw new Problem(
      "write-stale",
      `A relationship that exists is changed on the version that was read; ${ownName(from)} ${type} ${ownName(to)} exists at version ${link?.version ?? 0}, and none was given. Read it and repeat the change with its version.`,
      {
        facts: {
          subject: `${type} ${from.id} > ${to.id}`,
          yours: { version: 0, set, clear },
          theirs: { version: link?.version ?? 0, properties: link?.properties ?? {} },
        },
      },
    );
  }
  return { kind: "update-link", type, from: from.id, to: to.id, basedOn, set, clear };
}

async function newLink(
  store: GraphStore,
  { type, from, to }: FoundLink,
  properties: LinkRecord["properties"],
): Promise<readonly ProposedChange[]> {
  const create: ProposedChange = {
    kind: "create-link",
    type,
    from: from.id,
    to: to.id,
    properties,
  };
  if (relationshipDeclaration(type).each !== "one") return [create];
  if (type === "IS_WITHIN") await refuseRing(store, from, to);
  const [old] = await store.linksFrom(from.id, type);
  const gone: readonly ProposedChange[] =
    old === undefined
      ? []
      : [{ kind: "delete-link", type, from: old.from, to: old.to, basedOn: old.version }];
  return [...(await keysAfter(store, from, type, to)), ...gone, create];
}

/** Changes of key where the relationship is part of what its source is told apart by. */
async function keysAfter(
  store: GraphStore,
  node: NodeRecord,
  type: RelationshipType,
  to: NodeRecord,
): Promise<readonly ProposedChange[]> {
  if (!identifyingTypes(node.label).includes(type)) return [];
  const key = await keyWith(store, node, node.properties, new Map([[type, to]]));
  if (key === node.key) return [];
  return [
    { kind: "update-node", id: node.id, basedOn: node.version, set: {}, key },
    ...(await followingKeys(store, node, key)),
  ];
}

/**
 * Takes a relationship away, as one change that can be undone. Errors: `not-found`, `write-stale`; `input-invalid`
 * where its source could not be told apart without it.
 */
export async function unlinkRecords(
  store: GraphStore,
  named: NamedLink,
  basedOn: number | undefined,
  writer: Writer,
): Promise<LinkAnswer> {
  const found = await findLink(store, named);
  const { type, from, to, link } = found;
  if (link === undefined) {
    throw new Problem(
      "not-found",
      `A relationship must exist to be taken away; ${words(found)} does not. Look the record up again.`,
      { facts: { subject: `${type} ${from.id as NodeId} > ${to.id}` } },
    );
  }
  if (identifyingTypes(from.label as NodeLabel).includes(type)) {
    throw new Problem(
      "input-invalid",
      `A ${from.label} is told apart by its ${type} and cannot be without; received ${words(found)}. Lead it elsewhere with link, or delete the record.`,
      { places: [{ pointer: "/type", detail: "part of what it is told apart by" }] },
    );
  }
  const { sequence } = await writeChange(
    store,
    [{ kind: "delete-link", type, from: from.id, to: to.id, basedOn: basedOn ?? link.version }],
    writer,
    `${words(found)} taken away`,
  );
  return {
    sentence: `${words(found)} is taken away.`,
    sequence,
    link: null,
    changes: changesBetween(type, link.properties, {}),
    notes: [],
  };
}
