import { parentPort, workerData } from "node:worker_threads";
import type { Highs } from "highs";
import type { MilpOutcome, MilpProgramme } from "../../scoring/packs/milp.ts";

/** Where a thread finds this file, as source or compiled. */
export const milpWorker = new URL(import.meta.url);

/** What a thread is given once. */
export interface MilpWork {
  readonly task: "solve programmes";
}

export interface MilpAsked {
  readonly programme: MilpProgramme;
  readonly seconds: number;
}

export type MilpSaid =
  | {
      readonly kind: "progress";
      readonly seconds: number;
      readonly best?: number;
      readonly bound?: number;
    }
  | { readonly kind: "outcome"; readonly outcome: MilpOutcome }
  | { readonly kind: "failed"; readonly reason: string };

/** Loaded in the thread only, and only when first asked: it is a WebAssembly module of some megabytes. */
async function loadHighs(): Promise<Highs> {
  // The package's one declaration file is read as CommonJS or as ES, as it comes; its ES build exports the loader itself.
  const module = (await import("highs")) as unknown as { default: () => Promise<Highs> };
  return module.default();
}

const finite = (value: unknown): number | undefined =>
  typeof value === "number" && Math.abs(value) < 1e20 ? value : undefined;

/** Solves one programme with HiGHS, asked for a gapless proof; blocks this thread until done. */
function solve(
  highs: Highs,
  { programme, seconds }: MilpAsked,
  say: (said: MilpSaid) => void,
): MilpOutcome {
  const { columns, rows } = programme;
  const { constants } = highs;
  const numCols = columns.cost.length;
  const numRows = rows.lower.length;
  if (numCols === 0) return { status: "optimal", values: new Float64Array(0), bound: 0 };
  const isMax = programme.sense === "maximise";
  return highs.withModel(
    {
      numCols,
      numRows,
      sense: isMax ? constants.objectiveSense.maximize : constants.objectiveSense.minimize,
      colCost: columns.cost,
      colLower: columns.lower,
      colUpper: columns.upper,
      rowLower: rows.lower,
      rowUpper: rows.upper,
      matrix: {
        format: "csr",
        numRows,
        numCols,
        starts: rows.start,
        indices: rows.column,
        values: rows.value,
      },
      integrality: Int32Array.from(columns.isInteger),
    },
    (model): MilpOutcome => {
      model.options.set({
        output_flag: false,
        mip_rel_gap: 0,
        mip_abs_gap: programme.goodEnough,
        time_limit: Math.max(0.01, seconds),
      });
      const began = performance.now();
      let last = 0;
      const tell = (data: { mip_primal_bound?: number; mip_dual_bound?: number }): undefined => {
        const now = performance.now();
        if (now - last < 100) return undefined;
        last = now;
        const best = finite(data.mip_primal_bound);
        const bound = finite(data.mip_dual_bound);
        say({
          kind: "progress",
          seconds: (now - began) / 1000,
          ...(best === undefined ? {} : { best }),
          ...(bound === undefined ? {} : { bound }),
        });
        return undefined;
      };
      model.run({
        [constants.callbackType.mipInterrupt]: (event) => tell(event.data),
      });
      const status = model.getModelStatus();
      const bound = finite(model.info.get("mip_dual_bound")) ?? (isMax ? Infinity : -Infinity);
      if (status === constants.modelStatus.optimal)
        return { status: "optimal", values: model.getSolution().colValue, bound };
      if (status === constants.modelStatus.infeasible)
        return { status: "infeasible", bound: isMax ? -Infinity : Infinity };
      const isKit = model.info.get("primal_solution_status") === constants.solutionStatus.feasible;
      return isKit
        ? { status: "stopped", values: model.getSolution().colValue, bound }
        : { status: "stopped", bound };
    },
  );
}

const work = workerData as MilpWork | null | undefined;
const port = parentPort;
if (port !== null && work?.task === "solve programmes") {
  let loaded: Promise<Highs> | undefined;
  const say = (said: MilpSaid): void => port.postMessage(said);
  port.on("message", async (asked: MilpAsked) => {
    try {
      loaded ??= loadHighs();
      const highs = await loaded;
      say({ kind: "outcome", outcome: solve(highs, asked, say) });
    } catch (error) {
      loaded = undefined;
      say({ kind: "failed", reason: error instanceof Error ? error.message : String(error) });
    }
  });
}
