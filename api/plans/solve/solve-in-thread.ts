import { Worker } from "node:worker_threads";
import { Problem } from "../../errors/problem.ts";
import type { MilpLimits, MilpOutcome, MilpProgramme } from "../../scoring/packs/milp.ts";
import { type MilpAsked, type MilpSaid, type MilpWork, milpWorker } from "./milp-worker.ts";

/** A thread that is done is kept this long for the next question: loading the solver takes longer than most answers. */
const KEPT_MS = 60_000;
/** A solve that has not ended by itself this long after its limit is ended with its thread. */
const PATIENCE_MS = 2000;

interface Kept {
  readonly worker: Worker;
  readonly timer: NodeJS.Timeout;
  readonly drop: () => void;
}

const idle: Kept[] = [];

function take(): Worker {
  const kept = idle.pop();
  if (kept !== undefined) {
    clearTimeout(kept.timer);
    kept.worker.off("exit", kept.drop);
    return kept.worker;
  }
  const workerData: MilpWork = { task: "solve programmes" };
  return new Worker(milpWorker, { workerData });
}

/** Keeps a thread for a while without keeping the program alive. */
function keep(worker: Worker): void {
  worker.unref();
  const drop = (): void => {
    const at = idle.findIndex((kept) => kept.worker === worker);
    if (at >= 0) idle.splice(at, 1);
    clearTimeout(timer);
    void worker.terminate();
  };
  const timer = setTimeout(drop, KEPT_MS);
  timer.unref();
  worker.once("exit", drop);
  idle.push({ worker, timer, drop });
}

/**
 * Solves a programme with HiGHS in a thread of its own, so that the caller stays free.
 *
 * The solve ends by itself at the time limit with the best solution found and its bound. `signal` cancels it: the
 * thread is ended and the promise refused with the signal's reason.
 * Errors: `solver-failed` where the solver gives up (out of memory, mostly).
 */
export async function solveInThread(
  programme: MilpProgramme,
  limits: MilpLimits,
): Promise<MilpOutcome> {
  const { signal, progress, seconds } = limits;
  signal?.throwIfAborted();
  const worker = take();
  worker.ref();
  let isFree = false;
  let overdue: NodeJS.Timeout | undefined;
  const heard = new AbortController();
  try {
    return await new Promise<MilpOutcome>((resolve, reject) => {
      const fail = (reason: string): void =>
        reject(
          new Problem(
            "solver-failed",
            `The solver gave up: ${reason}. Ask for fewer limits, or a smaller fleet.`,
          ),
        );
      signal?.addEventListener("abort", () => reject(signal.reason), { signal: heard.signal });
      overdue = setTimeout(
        () => fail("it did not heed its time limit"),
        Math.min(2 ** 31 - 1, seconds * 1000 + PATIENCE_MS),
      );
      listen(worker, heard.signal, {
        error: (error) => fail(error instanceof Error ? error.message : String(error)),
        exit: () => fail("its thread ended"),
        message: (said) => {
          if (said.kind === "progress") return progress?.(said);
          isFree = true;
          if (said.kind === "outcome") resolve(said.outcome);
          else fail(said.reason);
        },
      });
      worker.postMessage({ programme, seconds } satisfies MilpAsked);
    });
  } finally {
    clearTimeout(overdue);
    heard.abort();
    if (isFree) keep(worker);
    else await worker.terminate();
  }
}

/** Hears a thread until the signal says enough; its other listeners stay. */
function listen(
  worker: Worker,
  until: AbortSignal,
  ears: {
    readonly error: (error: unknown) => void;
    readonly exit: () => void;
    readonly message: (said: MilpSaid) => void;
  },
): void {
  worker.on("error", ears.error);
  worker.on("exit", ears.exit);
  worker.on("message", ears.message);
  until.addEventListener("abort", () => {
    worker.off("error", ears.error);
    worker.off("exit", ears.exit);
    worker.off("message", ears.message);
  });
}
