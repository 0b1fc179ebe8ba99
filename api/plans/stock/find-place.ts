import {
  joinKey,
  keyPiece,
  keySeparator,
  type NodeId,
  type NodeKey,
} from "../../../graph-schema/index.ts";
import type { NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { nodeByWord } from "../choose-scope.ts";
import { freeId } from "../records/free-id.ts";
import { RecordNames } from "../records/record-names.ts";

/** Where a lot is or is to be: a locker or a vessel, there already or to be made. */
export interface Place {
  readonly id: NodeId;
  readonly key: NodeKey;
  readonly label: "Locker" | "Vessel";
  readonly name: string;
  readonly title: string;
  /** What makes it, outermost first; empty for a place that is there. */
  readonly making: readonly ProposedChange[];
}

const mostLockers = 20_000;
const partsOfPath = (text: string): string[] =>
  text
    .split(/\s*[>›]\s*|\s+\/\s+/)
    .map((name) => name.trim())
    .filter((name) => name !== "");

async function placeOf(store: GraphStore, node: NodeRecord): Promise<Place> {
  return {
    id: node.id,
    key: node.key,
    label: node.label === "Vessel" ? "Vessel" : "Locker",
    name: String(node.properties["name"] ?? ""),
    title: await new RecordNames(store).title(node),
    making: [],
  };
}

/**
 * The place a person means: a locker by id, by its path ("Saloon > Port settee > Box 3") or by the end of it where
 * that is enough to tell it apart, or a vessel by name. With `make`, a path of which there is none is made aboard the
 * vessel. Errors: `not-found`, naming what is near; `input-invalid` where several places are meant.
 */
export async function findPlace(
  store: GraphStore,
  text: string,
  vesselWord: string | undefined,
  make = false,
): Promise<Place> {
  const byId = text.includes(":") ? await store.node(text.trim() as NodeId) : undefined;
  if (byId?.label === "Locker" || byId?.label === "Vessel") return placeOf(store, byId);
  const vessel =
    vesselWord === undefined ? undefined : await nodeByWord(store, "Vessel", vesselWord);
  const path = partsOfPath(text);
  const wanted = path.map(keyPiece);
  const asVessel = path.length === 1 ? await store.nodeByKey("Vessel", wanted[0] ?? "") : undefined;
  if (asVessel !== undefined) return placeOf(store, asVessel);
  const all = await store.list("Locker", 0, mostLockers);
  const aboard = all.filter(
    ({ key }) => vessel === undefined || key.startsWith(vessel.key + keySeparator),
  );
  const ends = aboard.filter(({ key }) => {
    const own = key.split(keySeparator);
    return wanted.every((piece, at) => own[own.length - wanted.length + at] === piece);
  });
  const whole = ends.filter(({ key }) => {
    const depth = key.split(keySeparator).length;
    return depth === wanted.length + 1 || depth === wanted.length;
  });
  const found = ends.length === 1 ? ends[0] : whole.length === 1 ? whole[0] : undefined;
  if (found !== undefined) return placeOf(store, found);
  const names = new RecordNames(store);
  if (ends.length > 1) {
    const list: string[] = [];
    for (const node of ends.slice(0, 6)) list.push(`"${(await names.path(node)).join(" > ")}"`);
    throw new Problem(
      "input-invalid",
      `A place must be one; "${text.slice(0, 100)}" may be ${list.join(", ")}. Write the way to it, or name the vessel.`,
      { places: [{ pointer: "/place", detail: "several places are called so" }] },
    );
  }
  if (make) return newPlace(store, path, vessel);
  const near = aboard.filter(({ key }) => key.includes((wanted.at(-1) ?? "").slice(0, 3)));
  const list: string[] = [];
  for (const node of (near.length > 0 ? near : aboard).slice(0, 6)) {
    list.push(`"${(await names.path(node)).join(" > ")}"`);
  }
  throw new Problem(
    "not-found",
    `No locker is called "${text.slice(0, 100)}"${vessel === undefined ? "" : ` aboard ${String(vessel.properties["name"])}`}. ${list.length === 0 ? "There is none yet." : `There are: ${list.join(", ")}.`} To make it, say that it is a new place (--new).`,
  );
}

/** A path of lockers that is not there, made aboard a vessel, in as much of it as is. */
async function newPlace(
  store: GraphStore,
  path: readonly string[],
  given: NodeRecord | undefined,
): Promise<Place> {
  const first = path[0] ?? "";
  const named = await store.nodeByKey("Vessel", keyPiece(first));
  const vessels = await store.list("Vessel", 0, 2);
  const vessel = given ?? named ?? (vessels.length === 1 ? vessels[0] : undefined);
  if (vessel === undefined) {
    throw new Problem(
      "input-invalid",
      `A new locker must be aboard a vessel; none was named for "${path.join(" > ").slice(0, 100)}". Name the vessel.`,
      { places: [{ pointer: "/vessel", detail: "which vessel the new locker is aboard" }] },
    );
  }
  const names = named?.id === vessel.id ? path.slice(1) : path;
  const making: ProposedChange[] = [];
  let key = vessel.key;
  let owner = vessel.id;
  for (const name of names) {
    key = joinKey(key, keyPiece(name));
    const known = await store.nodeByKey("Locker", key);
    const id = known?.id ?? (await freeId(store, "Locker", key));
    if (known === undefined) {
      making.push(
        { kind: "create-node", label: "Locker", id, key, properties: { name } },
        { kind: "create-link", type: "IS_WITHIN", from: id, to: owner, properties: {} },
      );
    }
    owner = id;
  }
  const title = [String(vessel.properties["name"] ?? ""), ...names].join(" / ");
  return { id: owner, key, label: "Locker", name: names.at(-1) ?? "", title, making };
}
