import { availableParallelism } from "node:os";
import { Worker } from "node:worker_threads";
import type { CrossingModel } from "../../scoring/simulation/crossing-model.ts";
import {
  addTally,
  type CrossingTally,
  emptyTally,
} from "../../scoring/simulation/crossing-tally.ts";
import { crossingDrawer } from "../../scoring/simulation/draw-crossing.ts";
import { pieceSize } from "../../scoring/simulation/simulate-crossings.ts";
import { type PieceAsked, type PieceWork, pieceWorker } from "./piece-worker.ts";

export interface ThreadSettings {
  readonly crossings: number;
  readonly seed: number;
  /** Threads; as many as the machine runs at once, at most 8, when left out. */
  readonly threads?: number;
  readonly progress?: (done: number, total: number) => void;
  /** Stops the threads; the promise is then refused with the signal's reason. */
  readonly signal?: AbortSignal;
}

/**
 * Plays the crossings in worker threads, piece by piece, and adds up their tallies. The sums are of whole numbers and
 * every piece has its own stream, so the figures depend on the seed and not on the threads.
 * Errors: `rate-invalid` (draw-crossing.ts), raised before a thread starts.
 */
export async function simulateInThreads(
  model: CrossingModel,
  stocks: readonly Int32Array[],
  settings: ThreadSettings,
): Promise<CrossingTally> {
  crossingDrawer(model);
  const { crossings, seed, progress, signal } = settings;
  signal?.throwIfAborted();
  const pieces = Math.ceil(crossings / pieceSize);
  const wanted = settings.threads ?? Math.min(8, availableParallelism());
  const sum = emptyTally(stocks.length, model.tier.length, model.functions.length);
  const workerData: PieceWork = { task: "simulate crossings", model, stocks, seed };
  const workers = Array.from(
    { length: Math.max(1, Math.min(wanted, pieces)) },
    () => new Worker(pieceWorker, { workerData }),
  );
  let next = 0;
  let onAbort: (() => void) | undefined;
  try {
    await new Promise<void>((resolve, reject) => {
      onAbort = () => reject(signal?.reason);
      signal?.addEventListener("abort", onAbort);
      const give = (worker: Worker): void => {
        if (next >= pieces) return;
        const piece = next++;
        const left = crossings - piece * pieceSize;
        worker.postMessage({ piece, crossings: Math.min(pieceSize, left) } satisfies PieceAsked);
      };
      for (const worker of workers) {
        worker.on("error", reject);
        worker.on("message", (tally: CrossingTally) => {
          addTally(sum, tally);
          progress?.(sum.crossings, crossings);
          if (sum.crossings >= crossings) resolve();
          else give(worker);
        });
        give(worker);
      }
    });
  } finally {
    if (onAbort !== undefined) signal?.removeEventListener("abort", onAbort);
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
  return sum;
}
