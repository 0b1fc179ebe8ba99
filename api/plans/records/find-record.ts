import {
  keyPiece,
  type NodeId,
  type NodeLabel,
  nodeLabelNames,
  type RelationshipType,
  relationshipDeclaration,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import type { NodeRecord } from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { nearWords } from "../find/near-words.ts";
import { ownName, RecordNames } from "./record-names.ts";

/** Labels a person may write; an Import is the journal's own. */
export const writableLabels: readonly NodeLabel[] = nodeLabelNames.filter(
  (label) => label !== "Import",
);

const mostHits = 100;

/** What people call a kind of record besides its label. */
const otherWords: Readonly<Record<string, NodeLabel>> = {
  lot: "StockLot",
  stock: "StockLot",
  item: "FittedItem",
  gear: "FittedItem",
  function: "RequiredFunction",
  service: "ServiceTask",
  boat: "Vessel",
};

/** A label as typed, in any case, plural or in everyday words. Errors: `input-invalid`, naming the labels. */
export function labelByWord(word: string): NodeLabel {
  const plain = word
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_-]/g, "");
  const found = [plain, plain.replace(/s$/, "")].flatMap(
    (name) =>
      otherWords[name] ?? nodeLabelNames.find((label) => label.toLowerCase() === name) ?? [],
  )[0];
  if (found !== undefined) return found;
  throw new Problem(
    "input-invalid",
    `A kind of record must be one of ${nodeLabelNames.join(", ")}; received "${word.slice(0, 80)}". Choose one of them.`,
    { places: [{ pointer: "/label", detail: "no such label" }] },
  );
}

/** A relationship as typed, in any case. Errors: `input-invalid`, naming them. */
export function typeByWord(word: string): RelationshipType {
  const plain = word.trim().toUpperCase().replaceAll(/[\s-]/g, "_");
  const found = relationshipTypeNames.find((type) => type === plain);
  if (found !== undefined) return found;
  throw new Problem(
    "input-invalid",
    `A relationship must be one of ${relationshipTypeNames.join(", ")}; received "${word.slice(0, 80)}". Choose one of them.`,
    { places: [{ pointer: "/type", detail: "no such relationship" }] },
  );
}

/**
 * The record a person means by an id, a name ("0040-07") or a name after those of what it hangs on
 * ("Oakhollow / 0040-07"), among some labels. Errors: `not-found`; `input-invalid` where several are called so,
 * naming them with their ids.
 */
export async function recordByWord(
  store: GraphStore,
  word: string,
  labels: readonly NodeLabel[] = writableLabels,
): Promise<NodeRecord> {
  const wanted = word.trim();
  if (wanted.includes(":")) {
    const byId = await store.node(wanted as NodeId);
    if (byId !== undefined && (labels.includes(byId.label) || byId.label === "Import")) return byId;
  }
  const path = wanted.split(/\s+[/›>]\s+/).map(keyPiece);
  const last = path.at(-1) ?? "";
  const names = new RecordNames(store);
  const hits = await store.search(wanted.split(/\s+[/›>]\s+/).at(-1) ?? "", mostHits, labels);
  const called = hits.map(({ node }) => node).filter((node) => keyPiece(ownName(node)) === last);
  const found: NodeRecord[] = [];
  for (const node of called) {
    const own = (await names.path(node)).map(keyPiece);
    if (path.slice(0, -1).every((piece) => own.includes(piece))) found.push(node);
  }
  const [only] = found;
  if (only !== undefined && found.length === 1) return only;
  if (only === undefined) {
    const near =
      hits.length > 0
        ? hits.map(({ node }) => nameWithWords(node))
        : (await nearWords(store, wanted, labels)).map((name) => `"${name}"`);
    throw notFound(wanted, labels, near);
  }
  const list: string[] = [];
  for (const node of found.slice(0, 8)) {
    list.push(`${node.label} ${await names.title(node)} (${node.id})`);
  }
  throw new Problem(
    "input-invalid",
    `A name must mean one record; "${wanted.slice(0, 100)}" means ${found.length}: ${list.join("; ")}. Give the id, or write what it hangs on before it.`,
    { facts: { candidates: found.slice(0, 50).map(({ id }) => id) } },
  );
}

/** A record's own name, with what it is where a number alone would tell a person little. */
function nameWithWords(node: NodeRecord): string {
  const { description } = node.properties;
  const name = `"${ownName(node)}"`;
  return typeof description === "string" ? `${name} (${description})` : name;
}

function notFound(word: string, labels: readonly NodeLabel[], near: readonly string[]): Problem {
  const kinds = labels.length === writableLabels.length ? "record" : labels.join(" or ");
  const like = [...new Set(near)].slice(0, 6);
  return new Problem(
    "not-found",
    `No ${kinds} is called "${word.slice(0, 100)}". ${like.length === 0 ? "`sparewright find` looks for it by its beginning." : `Near it: ${like.join(", ")}.`}`,
    { facts: { word: word.slice(0, 200) } },
  );
}

/** The record a relationship is to lead to. Errors: those of `recordByWord`. */
export const endByWord = (
  store: GraphStore,
  type: RelationshipType,
  end: "from" | "to",
  word: string,
): Promise<NodeRecord> =>
  recordByWord(store, word, relationshipDeclaration(type)[end] as readonly NodeLabel[]);

/** The record of an id. Errors: `not-found`. */
export async function recordById(store: GraphStore, id: string): Promise<NodeRecord> {
  const node = await store.node(id as NodeId);
  if (node !== undefined) return node;
  throw new Problem(
    "not-found",
    `A record must exist to be shown or changed; there is none by the id "${id.slice(0, 100)}" (any more). Look it up again.`,
    { facts: { subject: id.slice(0, 200) } },
  );
}

/** Errors: `input-invalid` for the journal's own records. */
export function refuseJournal(node: { readonly label: NodeLabel }): void {
  if (node.label !== "Import") return;
  throw new Problem(
    "input-invalid",
    "An import is part of the journal and is not edited; received an Import. Undo it instead.",
  );
}
