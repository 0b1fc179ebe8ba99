import {
  nodeDeclaration,
  type RelationshipType,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import type { LinkDocument, RecordAnswer } from "../../contract/records.contract.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { cautions } from "../cautions.ts";
import { journalLines } from "../changes/journal-lines.ts";
import { plural } from "../words.ts";
import { recordById } from "./find-record.ts";
import { fieldsOf } from "./property-words.ts";
import { RecordNames, referenceTo } from "./record-names.ts";

const mostLinks = 200;
const mostEntries = 50;

/** A relationship with both its ends by name. */
export async function linkDocument(names: RecordNames, link: LinkRecord): Promise<LinkDocument> {
  const end = async (id: LinkRecord["from"]) => {
    const node = await names.node(id);
    return node === undefined ? { id, label: "", name: id } : referenceTo(node);
  };
  return {
    type: link.type,
    from: await end(link.from),
    to: await end(link.to),
    version: link.version,
    properties: { ...link.properties },
    extra: { ...link.extra },
  };
}

async function linksOf(
  names: RecordNames,
  direction: "out" | "in",
  all: readonly LinkRecord[],
): Promise<RecordAnswer["links"]> {
  const groups = Map.groupBy(all, ({ type }) => type);
  const answer: RecordAnswer["links"] = [];
  for (const [type, links] of groups as ReadonlyMap<RelationshipType, readonly LinkRecord[]>) {
    const shown: LinkDocument[] = [];
    for (const link of links.slice(0, mostLinks)) shown.push(await linkDocument(names, link));
    answer.push({
      type,
      meaning: relationshipDeclaration(type).meaning,
      direction,
      total: links.length,
      fields: fieldsOf(type),
      shown,
    });
  }
  return answer;
}

/**
 * One record whole: its values with their units and meanings, its relationships both ways, and its journal: who,
 * when, before, after, which import. Errors: `not-found`.
 */
export async function showRecord(store: GraphStore, id: string): Promise<RecordAnswer> {
  const node = await recordById(store, id);
  const names = new RecordNames(store);
  const out = await store.linksFrom(node.id);
  const into = await store.linksTo(node.id);
  const links = [...(await linksOf(names, "out", out)), ...(await linksOf(names, "in", into))];
  const record = await names.document(node);
  const entries = await store.journal({ about: node.id, limit: mostEntries });
  return {
    record,
    meaning: nodeDeclaration(node.label).meaning,
    sentence: sentence(node, record.title, out.length + into.length),
    fields: fieldsOf(node.label),
    links,
    journal: await journalLines(store, entries, names),
    cautions: [...cautions],
  };
}

const sentence = (node: NodeRecord, title: string, links: number): string =>
  `${node.label} ${title}, version ${node.version}, ${plural(links, "relationship")}.`;
