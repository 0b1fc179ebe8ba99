import { type NodeLabel, nodeDeclaration } from "../../graph-schema/index.ts";
import type { FindAnswer, FindRequest } from "../contract/find.contract.ts";
import { dayOfIso } from "../scoring/aboard/calendar.ts";
import type { Snapshot } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore, SearchHit } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { describeLot, lockerPath } from "./describe-lot.ts";
import { type GearIndex, indexGear } from "./index-gear.ts";
import { partsOfHits } from "./parts-behind.ts";
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

function gearWords(snapshot: Snapshot, index: GearIndex, model: number): string {
  const { models, items, vessels, makers } = snapshot;
  const maker = makers.name[models.maker[model] ?? -1];
  const name = [maker, models.designation[model]].filter((word) => word).join(" ");
  const fitted = (index.itemsOfModel.get(model) ?? []).map(
    (item) =>
      `${items.position[item] ?? ""} (${vessels.name[items.vessel[item] ?? -1] ?? "vessel not stated"})`,
  );
  return fitted.length === 0 ? `${name}: none fitted` : `${name}: ${fitted.join(", ")}`;
}

function partHit(
  snapshot: Snapshot,
  index: GearIndex,
  part: number,
  matched: string,
  today: number,
) {
  const { parts, makers } = snapshot;
  const lots = (index.lotsOfPart.get(part) ?? []).filter(
    (lot) => (snapshot.lots.quantity[lot] ?? 0) > 0,
  );
  const hit: Hit = {
    id: parts.id[part] ?? "",
    label: "Part",
    name: parts.partNumber[part] ?? "",
    detail: [makers.name[parts.maker[part] ?? -1], parts.description[part]]
      .filter((word) => word)
      .join(": "),
    matched,
    aboard: lots
      .map((lot) => describeLot(snapshot, lot, today))
      .sort(
        (a, b) =>
          a.vessel.localeCompare(b.vessel, "en") ||
          Number(b.usable) - Number(a.usable) ||
          (a.expires ?? "9999").localeCompare(b.expires ?? "9999"),
      ),
    usedBy: (index.modelsOfPart.get(part) ?? []).map((model) => gearWords(snapshot, index, model)),
  };
  return hit;
}

function otherDetail(snapshot: Snapshot, index: GearIndex, { node }: SearchHit): string {
  const { models, items, makers, vessels } = snapshot;
  const told = (...names: readonly string[]): string =>
    names
      .map((name) => node.properties[name])
      .filter((value) => typeof value === "string")
      .join(", ");
  switch (node.label) {
    case "Model": {
      const model = index.modelRow.get(node.id) ?? -1;
      return [models.category[model], makers.name[models.maker[model] ?? -1]]
        .filter((word) => word)
        .join(", ");
    }
    case "FittedItem": {
      const item = index.itemRow.get(node.id) ?? -1;
      return [vessels.name[items.vessel[item] ?? -1], models.designation[items.model[item] ?? -1]]
        .filter((word) => word)
        .join(", ");
    }
    case "Locker": {
      const locker = index.lockerRow.get(node.id) ?? -1;
      const vessel = vessels.name[snapshot.lockers.vessel[locker] ?? -1];
      return [vessel, lockerPath(snapshot, locker)].filter((word) => word).join(": ");
    }
    case "Supplier":
      return told("port", "country", "contact");
    default:
      return told("kind");
  }
}

function sentenceFor(text: string, hits: readonly Hit[]): string {
  const parts = hits.filter((hit) => hit.label === "Part");
  if (hits.length === 0) {
    return `Nothing here answers to “${text}”. Try the start of a part number, a word of its description, its maker or its locker.`;
  }
  const lots = parts.flatMap((hit) => hit.aboard ?? []);
  const pieces = (some: readonly { quantity: number }[]) =>
    some.reduce((sum, lot) => sum + lot.quantity, 0);
  return `“${text}” leads to ${plural(parts.length, "part")}: ${plural(pieces(lots), "piece")} aboard, ${pieces(lots.filter((lot) => lot.usable))} of them usable today.`;
}

/** Most hits looked at for each word of a text whose words stand in different records. */
const mostPerWord = 500;

/**
 * Parts each word of the text leads to by one way or another: a maker's name and a word of the description,
 * say, which no one record holds together.
 */
async function partsOfEveryWord(
  store: GraphStore,
  snapshot: Snapshot,
  text: string,
): Promise<ReadonlyMap<number, string>> {
  const index = indexGear(snapshot);
  const words = [...new Set(text.split(/\s+/).filter((word) => word !== ""))];
  let common: ReadonlyMap<number, string> | undefined;
  for (const word of words) {
    const hits = await store.search(word, mostPerWord, searched);
    const found = partsOfHits(snapshot, index, hits);
    const before = common;
    common =
      before === undefined
        ? found
        : new Map(
            [...before]
              .filter(([part]) => found.has(part))
              .map(([part, matched]) => [part, `${matched}; ${found.get(part) ?? ""}`]),
          );
  }
  return common ?? new Map();
}

/**
 * Where spares are: parts whose number, description, maker, locker or gear answers to the text, each with its
 * lots (vessel, nested locker, pieces, last day, usable today or why not) and the gear that takes it.
 * Best matches first; at most `limit` hits (50 when absent).
 */
export async function findSpares(
  store: GraphStore,
  request: FindRequest,
  today: string,
): Promise<FindAnswer> {
  const limit = request.limit ?? 50;
  const snapshot = await store.snapshot();
  const index = indexGear(snapshot);
  const found = await store.search(request.text, limit, searched);
  let parts = partsOfHits(snapshot, index, found);
  if (parts.size === 0) parts = await partsOfEveryWord(store, snapshot, request.text);
  const day = dayOfIso(today);
  const partHits = [...parts]
    .slice(0, limit)
    .map(([part, matched]) => partHit(snapshot, index, part, matched, day));
  const otherHits = found
    .filter((hit) => hit.node.label !== "Part")
    .map(
      (hit): Hit => ({
        id: hit.node.id,
        label: hit.node.label,
        name: nameOf(hit),
        detail: otherDetail(snapshot, index, hit),
        matched: hit.matched,
      }),
    );
  const hits = [...partHits, ...otherHits].slice(0, limit);
  return {
    text: request.text,
    sentence: sentenceFor(request.text, hits),
    hits,
    cautions: [...cautions],
  };
}

function nameOf({ node }: SearchHit): string {
  const name = node.properties[nodeDeclaration(node.label).nameFrom];
  return typeof name === "string" ? name : node.id;
}
