import type { KitRequest } from "../../contract/kit.contract.ts";
import { Problem } from "../../errors/problem.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { type ChosenPassage, choosePassage } from "./choose-passage.ts";

/** A passage with the picture of the vessel that sails it. */
export interface Scene {
  readonly chosen: ChosenPassage;
  readonly snapshot: Snapshot;
  /** Row of the vessel in the picture. */
  readonly vessel: number;
  readonly vesselName: string;
  /** The crossing's own name, or "the crossing". */
  readonly crossingName: string;
}

/** What a request is about: its vessel, crossing and the graph as they see it. Errors: those of `choosePassage`. */
export async function chooseScene(
  store: GraphStore,
  request: KitRequest,
  today: string,
): Promise<Scene> {
  const chosen = await choosePassage(store, request, today);
  const snapshot = await store.snapshot(chosen.vessel.id);
  const vessel = snapshot.vessels.id.indexOf(chosen.vessel.id);
  if (vessel < 0)
    throw new Problem("unexpected", `The snapshot of ${chosen.vessel.id} lacks its vessel.`);
  return {
    chosen,
    snapshot,
    vessel,
    vesselName: snapshot.vessels.name[vessel] ?? "",
    crossingName: String(chosen.crossing?.properties["name"] ?? "the crossing"),
  };
}
