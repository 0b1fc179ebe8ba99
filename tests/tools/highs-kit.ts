import highsModule, { type Highs } from "highs";
import type { KitPart } from "../../api/scoring/kit/kit-problem.ts";

export interface HighsKit {
  readonly isOptimal: boolean;
  readonly buys: Int32Array;
  /** Cost of `buys`, reckoned here in integers. */
  readonly cost: number;
  /** Least cost the solver claims possible, within its tolerances. */
  readonly dualBound: number;
}

// The package's one declaration file is read as CommonJS, its ES build exports the loader itself.
const loadHighs = highsModule as unknown as () => Promise<Highs>;

/** Loads the solver once (it is a WebAssembly module), asked for a proof without gap; `isOptimal` is false where time ran out. */
export async function highsKitSolver(): Promise<
  (parts: readonly KitPart[], target: number, timeLimitSeconds?: number) => HighsKit
> {
  const highs = await loadHighs();
  return (parts, target, timeLimitSeconds = 1e6) => {
    const most = parts.map((part) => Math.min(part.logCdf.length - 1, part.maxBuy ?? Infinity));
    return highs.withModel({ format: "lp", data: kitModel(parts, most, target) }, (model) => {
      model.options.set({
        output_flag: false,
        mip_rel_gap: 0,
        mip_abs_gap: 1e-6,
        time_limit: timeLimitSeconds,
      });
      model.run();
      const isOptimal = model.getModelStatus() === highs.constants.modelStatus.optimal;
      const values = model.getSolution().colValue;
      const buys = new Int32Array(parts.length);
      let column = 0;
      // Columns appear in the order of the objective: part by part, level by level.
      most.forEach((top, p) => {
        for (let x = 1; x <= top; x++)
          if ((values[column++] ?? 0) > 0.5) buys[p] = (buys[p] ?? 0) + 1;
      });
      return {
        isOptimal,
        buys,
        cost: parts.reduce((sum, part, p) => sum + costOfSteps(part, buys[p] ?? 0), 0),
        dualBound: model.info.get("mip_dual_bound") as number,
      };
    });
  };
}

/** Cost of the first x pieces, or steps where a part is sold in lumps. */
const costOfSteps = (part: KitPart, x: number): number => part.stepCost?.[x] ?? part.unitCost * x;

/**
 * The kit as a mixed-integer programme: a binary per piece, worth its step of ln F times a scale.
 * Steps of a log-concave distribution decrease, so any n of its binaries are worth no more than the
 * first n; parts of any other distribution get an order row per piece. logCdf must be finite.
 */
function kitModel(parts: readonly KitPart[], most: readonly number[], target: number): string {
  const scale = 1000;
  const cost: string[] = [];
  const gain: string[] = [];
  const order: string[] = [];
  const names: string[] = [];
  let need = Math.log(target);
  parts.forEach((part, p) => {
    need -= part.logCdf[0] ?? 0;
    const steps = Array.from(part.logCdf.subarray(1), (log, x) => log - (part.logCdf[x] ?? 0));
    const isConcave =
      part.stepCost === undefined &&
      steps.every((step, x) => x === 0 || step <= (steps[x - 1] ?? 0));
    for (let x = 1; x <= (most[p] ?? 0); x++) {
      const step = steps[x - 1] ?? 0;
      names.push(`y${p}_${x}`);
      cost.push(`${costOfSteps(part, x) - costOfSteps(part, x - 1)} y${p}_${x}`);
      gain.push(`${(step * scale).toFixed(15)} y${p}_${x}`);
      if (x > 1 && !isConcave) order.push(` o${p}_${x}: y${p}_${x} - y${p}_${x - 1} <= 0`);
    }
  });
  return [
    "Minimize",
    ` cost: ${wrapped(cost)}`,
    "Subject To",
    ` enough: ${wrapped(gain)} >= ${(need * scale).toFixed(15)}`,
    ...order,
    "Binary",
    names.join("\n"),
    "End",
  ].join("\n");
}

function wrapped(terms: readonly string[]): string {
  return terms.join("\n + ");
}
