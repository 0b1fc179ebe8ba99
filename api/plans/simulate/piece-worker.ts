import { parentPort, workerData } from "node:worker_threads";
import type { CrossingModel } from "../../scoring/simulation/crossing-model.ts";
import { crossingSimulator } from "../../scoring/simulation/simulate-crossings.ts";

/** Where a thread finds this file, as source or compiled. */
export const pieceWorker = new URL(import.meta.url);

/** What a thread is given once. */
export interface PieceWork {
  readonly task: "simulate crossings";
  readonly model: CrossingModel;
  readonly stocks: readonly Int32Array[];
  readonly seed: number;
}

/** One piece of the work, asked for by message; the answer is its tally. */
export interface PieceAsked {
  readonly piece: number;
  readonly crossings: number;
}

const work = workerData as PieceWork | null | undefined;
const port = parentPort;
if (port !== null && work?.task === "simulate crossings") {
  const run = crossingSimulator(work.model, work.stocks);
  port.on("message", ({ piece, crossings }: PieceAsked) => {
    port.postMessage(run(work.seed, piece, crossings));
  });
}
