import { type NodeId, type NodeLabel, nodeDeclaration } from "../../graph-schema/index.ts";
import type { FindAnswer, FindRequest } from "../contract/find.contract.ts";
import { dayOfIso } from "../scoring/aboard/calendar.ts";
import type { GraphStore, SearchHit } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { describePart, readRound } from "./find/describe-part.ts";
import { nearWords } from "./find/near-words.ts";
import { partsBehind } from "./find/parts-behind.ts";
import { partsOfWords } from "./find/parts-of-words.ts";
import { Surroundings } from "./find/surroundings.ts";
import { plural } from "./words.ts";

type Hit = FindAnswer["hits"][number];

const searched: readonly NodeLabel[] = [
  "Part",
  "Locker",
  "Model",
  "FittedItem",
  "Maker",
  "Supplier",
  "Vessel",
];

const usualLimit = 50;

async function readOthers(round: Surroundings, others: readonly SearchHit[]): Promise<void> {
  const of = (...labels: readonly NodeLabel[]): readonly NodeId[] =>
    others.filter(({ node }) => labels.includes(node.label)).map(({ node }) => node.id);
  await round.follow(of("Model"), ["MADE_BY"]);
  await round.follow(of("FittedItem"), ["FITTED_ON", "IS_MODEL"]);
  await round.followPlaces([], of("Locker"));
}

function otherDetail(round: Surroundings, { node }: SearchHit): string {
  const joined = (...words: readonly string[]): string =>
    words.filter((word) => word !== "").join(", ");
  const { id } = node;
  const lead = (type: "MADE_BY" | "FITTED_ON" | "IS_MODEL"): NodeId | undefined =>
    round.targets(id, type)[0];
  switch (node.label) {
    case "Model":
      return joined(round.text(id, "category"), round.text(lead("MADE_BY"), "name"));
    case "FittedItem":
      return joined(
        round.text(lead("FITTED_ON"), "name"),
        round.text(lead("IS_MODEL"), "designation"),
      );
    case "Locker": {
      const { vessel, path } = round.placeOf(id);
      return [round.text(vessel, "name"), path].filter((word) => word !== "").join(": ");
    }
    case "Supplier":
      return joined(...["port", "country", "contact"].map((name) => round.text(id, name)));
    default:
      return round.text(id, "kind");
  }
}

function sentenceFor(text: string, hits: readonly Hit[], near: readonly string[]): string {
  const parts = hits.filter((hit) => hit.label === "Part");
  if (hits.length === 0) {
    if (near.length > 0) {
      return `Nothing here answers to “${text}”. Near it: ${near.map((word) => `“${word}”`).join(", ")}.`;
    }
    return `Nothing here answers to “${text}”. Try the start of a part number, a word of its description, its maker or its locker.`;
  }
  const lots = parts.flatMap((hit) => hit.aboard ?? []);
  const pieces = (some: readonly { quantity: number }[]) =>
    some.reduce((sum, lot) => sum + lot.quantity, 0);
  return `“${text}” leads to ${plural(parts.length, "part")}: ${plural(pieces(lots), "piece")} aboard, ${pieces(lots.filter((lot) => lot.usable))} of them usable today.`;
}

/**
 * Where spares are: parts whose number, supplier's code, description, maker, locker or gear answers to the text, each
 * with its lots (vessel, nested locker, pieces, last day, usable today or why not) and the gear that takes it.
 * Best matches first: parts found by their own words, other records, then parts those lead to; at most `limit` (50
 * when absent). Reads only what it shows, so it answers as one types, also right after a change.
 */
export async function findSpares(
  store: GraphStore,
  request: FindRequest,
  today: string,
): Promise<FindAnswer> {
  const limit = request.limit ?? usualLimit;
  const round = new Surroundings(store);
  const found = await store.search(request.text, limit, searched);
  const direct = found.filter(({ node }) => node.label === "Part");
  const others = found.filter(({ node }) => node.label !== "Part");
  round.know(found.map(({ node }) => node));
  // Nothing is looked for that would not be shown: on every key the list is full at once in a large graph.
  const room = limit - found.length;
  const behind =
    room <= 0
      ? new Map<NodeId, string>()
      : await partsBehind(
          round,
          others.map(({ node }) => node),
          room,
        );
  const parts = new Map(direct.map(({ node, matched }) => [node.id, matched]));
  const further = new Map([...behind].filter(([part]) => !parts.has(part)));
  const mixed =
    room > 0 && parts.size + further.size === 0
      ? await partsOfWords(store, round, request.text, limit)
      : further;
  const shown = [...parts, ...[...mixed].slice(0, Math.max(0, room))];
  await readRound(
    round,
    shown.map(([part]) => part),
  );
  await readOthers(round, others);
  const day = dayOfIso(today);
  const describe = ([part, matched]: readonly [NodeId, string]): Hit =>
    describePart(round, part, matched, day);
  const otherHits = others.map(
    (hit): Hit => ({
      id: hit.node.id,
      label: hit.node.label,
      name: nameOf(hit),
      detail: otherDetail(round, hit),
      matched: hit.matched,
    }),
  );
  const hits = [
    ...shown.slice(0, parts.size).map(describe),
    ...otherHits,
    ...shown.slice(parts.size).map(describe),
  ].slice(0, limit);
  const near = hits.length === 0 ? await nearWords(store, request.text, searched) : [];
  return {
    text: request.text,
    sentence: sentenceFor(request.text, hits, near),
    hits,
    cautions: [...cautions],
  };
}

function nameOf({ node }: SearchHit): string {
  const name = node.properties[nodeDeclaration(node.label).nameFrom];
  return typeof name === "string" ? name : node.id;
}
