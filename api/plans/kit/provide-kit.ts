import type { MilpProgress } from "../../scoring/packs/milp.ts";
import { solveSale } from "../../scoring/packs/solve-sale.ts";
import type { SoldKit } from "../../scoring/provision/kit-sale.ts";
import type { Passage } from "../../scoring/provision/passage.ts";
import { settledKit, vesselKitAsSold } from "../../scoring/provision/sold-kit.ts";
import type { KitSettings } from "../../scoring/provision/vessel-kit.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { solveInThread } from "../solve/solve-in-thread.ts";

/** Seconds after which a proof gives way to the best kit found, with its gap. */
export const usualSeconds = 20;

export interface KitWork {
  /** Time allowed; `usualSeconds` when absent. */
  readonly seconds?: number;
  /** Cancels a solve in a thread; the promise is then refused with the signal's reason. */
  readonly signal?: AbortSignal;
  /** Told now and then while a solver works. */
  readonly progress?: (at: MilpProgress) => void;
}

/**
 * Returns the kit of one vessel as it is sold, by the fast methods where they can answer, else (caps, or service kits
 * too entangled) by a mixed-integer solver in a thread.
 */
export async function provideKit(
  snapshot: Snapshot,
  vessel: number,
  passage: Passage,
  settings: KitSettings,
  work: KitWork = {},
): Promise<SoldKit> {
  const { seconds = usualSeconds, signal, progress } = work;
  signal?.throwIfAborted();
  const ends = performance.now() + seconds * 1000;
  const shouldStop = (): boolean => performance.now() > ends;
  const kit = vesselKitAsSold(snapshot, vessel, passage, { ...settings, shouldStop });
  return settleKit(kit, {
    seconds: Math.max(0.1, (ends - performance.now()) / 1000),
    ...(signal === undefined ? {} : { signal }),
    ...(progress === undefined ? {} : { progress }),
  });
}

/** Returns the kit as it is where the fast methods have settled it, else as a mixed-integer solver in a thread answers. */
export async function settleKit(kit: SoldKit, work: KitWork): Promise<SoldKit> {
  if (kit.sale.isSettled) return kit;
  const { seconds = usualSeconds, signal, progress } = work;
  const outcome = await solveSale(kit.sale.problem, solveInThread, {
    seconds,
    ...(signal === undefined ? {} : { signal }),
    ...(progress === undefined ? {} : { progress }),
  });
  return settledKit(kit, outcome);
}
