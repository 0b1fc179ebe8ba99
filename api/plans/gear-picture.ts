import type { NodeId } from "../../graph-schema/index.ts";
import type { GearPicture } from "../scoring/snapshot/snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";

/** What gear has in common and who sells its parts is reckoned from: of one vessel, or of the whole fleet. Errors: `not-found`. */
export const gearPicture = (store: GraphStore, vessel: NodeId | undefined): Promise<GearPicture> =>
  vessel === undefined && store.fleetGear !== undefined
    ? store.fleetGear()
    : store.snapshot(vessel);
