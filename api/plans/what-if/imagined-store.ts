import { joinKey, keyPiece, mintNodeId, type NodeId } from "../../../graph-schema/index.ts";
import type { ImaginedAnswer, WhatIf } from "../../contract/what-if.contract.ts";
import { Problem } from "../../errors/problem.ts";
import { dayOfIso } from "../../scoring/aboard/calendar.ts";
import { type AddedLink, type AddedNode, addRows } from "../../scoring/snapshot/add-rows.ts";
import { imagine, type RateChange } from "../../scoring/snapshot/imagine.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { vesselPicture } from "../../scoring/snapshot/vessel-picture.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import {
  functionByWord,
  itemByWord,
  modelByWord,
  partByWord,
  supplierByWord,
  vesselByWord,
} from "./rows-by-word.ts";
import { typedModels } from "./typed-models.ts";

export interface ImaginedStore {
  /** The same store, whose snapshots show what was imagined. */
  readonly store: GraphStore;
  /** What was imagined, in words. */
  readonly changes: readonly string[];
  /** The same, each with its place in the question. */
  readonly said: readonly Said[];
  readonly notices: readonly string[];
}

/** ISO day on which new gear is fitted: the same aboard every vessel, or told by vessel. */
export type FittedOn = string | ((vessel: NodeId | undefined) => string);

type Said = ImaginedAnswer["changes"][number];

interface Scene {
  readonly snapshot: Snapshot;
  /** The vessel a word about an item means where it names none. */
  readonly vessel: number | undefined;
  readonly said: Said[];
  /** Items added so far. */
  readonly added: Set<NodeId>;
  /** ISO day on which new gear is fitted aboard a vessel. */
  readonly fittedOn: (vessel: number) => string;
}

/**
 * A store that answers as if some changes had been made, without making any: only its snapshots differ. What stands
 * in for unknown prices is read from the snapshot before, so that both sides reckon alike.
 *
 * @param vessel the vessel the question is about, an id or a name; items are looked for there first
 * @param fittedOn ISO day on which new gear is fitted, one for all vessels or told of each
 * Errors: `not-found`, `input-invalid` (a name that fits several), `key-taken`, the importer's for typed-in lists.
 */
export async function imaginedStore(
  store: GraphStore,
  whatIf: WhatIf,
  vessel: string | undefined,
  fittedOn: FittedOn,
): Promise<ImaginedStore> {
  const whole = await store.snapshot();
  const typed =
    whatIf.models === undefined || whatIf.models.length === 0
      ? { nodes: [], links: [], notices: [] }
      : await typedModels(whatIf.models, store);
  const known = addRows(whole, typed);
  const said = (whatIf.models ?? []).map(
    ({ maker, designation }, at): Said => ({
      list: "models",
      at,
      words: `${maker} ${designation} is taken to exist.`,
    }),
  );
  const scene: Scene = {
    snapshot: known,
    vessel: vessel === undefined ? undefined : vesselByWord(known, vessel),
    said,
    added: new Set(),
    fittedOn: (row) => (typeof fittedOn === "string" ? fittedOn : fittedOn(known.vessels.id[row])),
  };
  /** Works out each change of a list and keeps its words; what is refused is told with its place. */
  const each = <One, Row>(
    list: Said["list"],
    changes: readonly One[] | undefined,
    work: (one: One) => { readonly row: Row; readonly words: string },
  ): Row[] =>
    (changes ?? []).map((one, at) => {
      try {
        const { row, words } = work(one);
        said.push({ list, at, words });
        return row;
      } catch (error) {
        if (!(error instanceof Problem)) throw error;
        throw new Problem(error.code, error.message, {
          places: [{ pointer: `/whatIf/${list}/${at}`, detail: "this change is refused" }],
          facts: error.facts,
          cause: error,
        });
      }
    });
  const fresh = each("add", whatIf.add, (one) => addedItems(scene, one));
  const added = addRows(known, {
    nodes: fresh.flatMap(({ nodes }) => nodes),
    links: fresh.flatMap(({ links }) => links),
  });
  const imagined = imagine(
    { ...added, imaginedFrom: whole },
    {
      replace: each("replace", whatIf.replace, (one) => replaced(scene, one)),
      removeItems: each("remove", whatIf.remove, (one) => removed(scene, one)),
      loseSuppliers: each("loseSuppliers", whatIf.loseSuppliers, (one) => lost(scene, one)),
      rates: each("rates", whatIf.rates, (one) => rated(scene, one)).flat(),
      // Each replacement says its own.
      fittedOnDay: Number.NaN,
    },
  );
  const pictures = new Map<NodeId, Promise<Snapshot>>();
  const snapshot = async (of?: NodeId): Promise<Snapshot> => {
    if (of === undefined) return imagined;
    const ready = pictures.get(of) ?? pictured(store, imagined, of);
    pictures.set(of, ready);
    return ready;
  };
  const proxy = new Proxy(store, {
    get(target, name) {
      if (name === "snapshot") return snapshot;
      if (name === "fleetGear") return () => snapshot();
      const member: unknown = Reflect.get(target, name);
      return typeof member === "function" ? member.bind(target) : member;
    },
  });
  return { store: proxy, changes: said.map(({ words }) => words), said, notices: typed.notices };
}

/** One vessel's picture of what was imagined, departing from that vessel's picture as it is. */
async function pictured(store: GraphStore, imagined: Snapshot, of: NodeId): Promise<Snapshot> {
  const before = await store.snapshot(of);
  return { ...vesselPicture(imagined, imagined.vessels.id.indexOf(of)), imaginedFrom: before };
}

function vesselOf({ snapshot, vessel }: Scene, word: string | undefined): number | undefined {
  if (word !== undefined) return vesselByWord(snapshot, word);
  return vessel ?? (snapshot.vessels.id.length === 1 ? 0 : undefined);
}

function itemOf(scene: Scene, one: { item: string; vessel?: string | undefined }): number {
  return itemByWord(scene.snapshot, one.item, vesselOf(scene, one.vessel));
}

function positionWords({ items, vessels }: Snapshot, item: number): string {
  return `${items.position[item] ?? ""} on ${vessels.name[items.vessel[item] ?? -1] ?? "no vessel"}`;
}

export function modelWords({ models, makers }: Snapshot, model: number): string {
  return `${makers.name[models.maker[model] ?? -1] ?? ""} ${models.designation[model] ?? "gear of no known model"}`.trim();
}

function replaced(scene: Scene, one: NonNullable<WhatIf["replace"]>[number]) {
  const { snapshot } = scene;
  const item = itemOf(scene, one);
  const model = modelByWord(snapshot, one.model);
  const vessel = snapshot.items.vessel[item] ?? -1;
  return {
    row: { item, model, fittedOnDay: dayOfIso(scene.fittedOn(vessel)) },
    words: `${positionWords(snapshot, item)}: ${modelWords(snapshot, model)}, new, in place of ${modelWords(snapshot, snapshot.items.model[item] ?? -1)}.`,
  };
}

function removed(scene: Scene, one: NonNullable<WhatIf["remove"]>[number]) {
  const row = itemOf(scene, one);
  return { row, words: `${positionWords(scene.snapshot, row)} is taken out.` };
}

function lost({ snapshot }: Scene, word: string) {
  const row = supplierByWord(snapshot, word);
  return { row, words: `${snapshot.suppliers.name[row] ?? ""} no longer sells.` };
}

function rated(
  { snapshot }: Scene,
  one: NonNullable<WhatIf["rates"]>[number],
): { readonly row: readonly RateChange[]; readonly words: string } {
  const part = partByWord(snapshot, one.part);
  const model = one.model === undefined ? undefined : modelByWord(snapshot, one.model);
  const { uses } = snapshot;
  const lines: number[] = [];
  for (let row = 0; row + 1 < uses.start.length; row++) {
    if (model !== undefined && row !== model) continue;
    for (let line = uses.start[row] ?? 0; line < (uses.start[row + 1] ?? 0); line++) {
      if (uses.target[line] === part) lines.push(line);
    }
  }
  if (lines.length === 0) {
    throw new Problem(
      "not-found",
      `A changed rate needs a parts list that holds the part; ${snapshot.parts.partNumber[part] ?? one.part} is on ${model === undefined ? "none" : `none of ${modelWords(snapshot, model)}`}. Name another part or model.`,
    );
  }
  const where = model === undefined ? "" : ` in ${modelWords(snapshot, model)}`;
  const { times, rate, basis } = one;
  const how =
    times === undefined ? `fails ${rate} times per ${basis}` : `fails ${times} times as often`;
  const code = { "1000 hours": 1, year: 2, "1000 operations": 3 } as const;
  return {
    row: lines.map((line) =>
      times !== undefined
        ? { kind: "times", line, factor: times }
        : { kind: "rate", line, rate: rate ?? 0, basis: code[basis ?? "year"] },
    ),
    words: `${snapshot.parts.partNumber[part] ?? ""}${where} ${how}.`,
  };
}

/** Vessel and position of added gear; "Vessel: position" names both where no vessel is given. */
function placed(
  scene: Scene,
  one: NonNullable<WhatIf["add"]>[number],
): { readonly vessel: number; readonly position: string } {
  const { vessels } = scene.snapshot;
  const colon = one.position.indexOf(":");
  const before = keyPiece(one.position.slice(0, Math.max(0, colon)));
  const rest = one.position.slice(colon + 1).trim();
  const named =
    one.vessel === undefined && colon > 0 && rest !== ""
      ? vessels.name.findIndex((name) => keyPiece(name) === before)
      : -1;
  if (named >= 0) return { vessel: named, position: rest };
  const vessel = vesselOf(scene, one.vessel);
  if (vessel !== undefined) return { vessel, position: one.position };
  throw new Problem(
    "input-invalid",
    `Added gear must name its vessel; "${one.position}" names none, and there are ${vessels.name.join(", ")}. Give the vessel, or write "${vessels.name[0] ?? "Vessel"}: ${one.position}".`,
  );
}

/** Fitted items that are added: new, their services done on the day they are fitted. */
function addedItems(scene: Scene, one: NonNullable<WhatIf["add"]>[number]) {
  const { snapshot } = scene;
  const nodes: AddedNode[] = [];
  const links: AddedLink[] = [];
  const { vessel, position: wanted } = placed(scene, one);
  const model = modelByWord(snapshot, one.model);
  const fittedOn = scene.fittedOn(vessel);
  const duties = (one.serves ?? []).map((word) => functionByWord(snapshot, word, vessel));
  const count = one.count ?? 1;
  for (let at = 1; at <= count; at++) {
    const position = count === 1 ? wanted : `${wanted} ${at}`;
    const key = joinKey(keyPiece(snapshot.vessels.name[vessel] ?? ""), keyPiece(position));
    const id = mintNodeId("FittedItem", key);
    if (snapshot.items.id.includes(id) || scene.added.has(id)) {
      throw new Problem(
        "key-taken",
        `A position is fitted once; "${position}" on ${snapshot.vessels.name[vessel] ?? ""} has gear already. Replace it instead, or give another position.`,
      );
    }
    scene.added.add(id);
    const figures = Object.entries({
      hoursPerDay: one.hoursPerDay,
      operationsPerDay: one.operationsPerDay,
    }).flatMap(([name, value]) => (value === undefined ? [] : [[name, value] as const]));
    nodes.push({
      label: "FittedItem",
      id,
      properties: { position, fittedOn, hoursRun: 0, ...Object.fromEntries(figures) },
    });
    const link = (type: AddedLink["type"], to: NodeId | undefined, properties = {}): void => {
      if (to !== undefined) links.push({ type, from: id, to, properties });
    };
    link("FITTED_ON", snapshot.vessels.id[vessel]);
    link("IS_MODEL", snapshot.models.id[model]);
    for (const row of duties) link("SERVES", snapshot.functions.id[row]);
    snapshot.services.model.forEach((of, service) => {
      if (of !== model) return;
      link("SERVICED", snapshot.services.id[service], { lastDone: fittedOn, lastDoneHours: 0 });
    });
  }
  const serving =
    duties.length === 0
      ? ""
      : ` to serve ${duties.map((row) => snapshot.functions.name[row]).join(", ")}`;
  return {
    row: { nodes, links },
    words: `${count === 1 ? "" : `${count} × `}${modelWords(snapshot, model)}, new, fitted as ${wanted} on ${snapshot.vessels.name[vessel] ?? ""}${serving}.`,
  };
}
