import { Problem } from "../../errors/problem.ts";
import { type Incidence, requireIncidence } from "./incidence.ts";

/** What the weighted index needs besides the incidence. */
export interface CommonalityWeights {
  /** Price of a piece of each part class, any one unit of money (length partCount). */
  readonly price: ArrayLike<number>;
  /** Pieces in each use, aligned with `incidence.parts`. */
  readonly quantity: ArrayLike<number>;
  /** Items fitted of each model (length modelCount). */
  readonly volume: ArrayLike<number>;
}

/** How alike a set of models is. An index is null where its formula divides nothing by nothing. */
export interface CommonalityIndices {
  /** Part classes used by at least one model, `d`. */
  readonly distinctParts: number;
  /** Uses, `ΣΦ`. */
  readonly uses: number;
  /** Part classes used by one model only. */
  readonly usedByOneModel: number;
  /** Collier: mean number of models per part, 1 to the number of models. */
  readonly degreeOfCommonality: number | null;
  /** Wacker and Treleven: 0 (nothing shared) to 1, which it reaches only where one part is all that several models take. */
  readonly totalConstantCommonality: number | null;
  /** Martin and Ishii: 0 (nothing shared) to 1 (as few parts as the largest model needs). */
  readonly commonality: number | null;
  /** Jiao and Tseng: Collier's index weighted by the money in each part; null without weights. */
  readonly weightedByCost: number | null;
}

/**
 * The commonality indices of the models in scope.
 *
 *   DCI   = ΣΦ_p / d
 *   TCCI  = 1 - (d - 1) / (ΣΦ_p - 1)
 *   CI    = 1 - (d - max_j p_j) / (Σ_j p_j - max_j p_j)
 *   CI(C) = Σ_p [P_p Φ_p Σ_j V_j Q_pj] / Σ_p [P_p Σ_j V_j Q_pj]
 *   Φ_p models using part p;  d parts with Φ ≥ 1;  p_j parts of model j;
 *   P price, Q pieces in each item, V items fitted
 *
 * DCI of three identical models is 3 while their TCCI is not 1: compare like with like.
 * Throws `input-invalid` for a malformed incidence or weights of the wrong length. O(uses).
 * Source: D. Collier, Decision Sciences 12 (1981); J. Wacker and M. Treleven, J. Operations
 * Management 6 (1986); M. Martin and K. Ishii, ASME DETC (1997); J. Jiao and M. Tseng,
 * Concurrent Engineering 8 (2000). Formulas from memory of the papers.
 */
export function commonalityIndices(
  incidence: Incidence,
  weights?: CommonalityWeights,
): CommonalityIndices {
  requireIncidence(incidence);
  const { modelCount, partCount, start, parts } = incidence;
  const users = new Int32Array(partCount);
  for (const part of parts) users[part] = (users[part] ?? 0) + 1;
  let largest = 0;
  for (let m = 0; m < modelCount; m += 1) {
    largest = Math.max(largest, (start[m + 1] ?? 0) - (start[m] ?? 0));
  }
  const distinct = users.reduce((count, n) => count + (n > 0 ? 1 : 0), 0);
  const uses = parts.length;
  return {
    distinctParts: distinct,
    uses,
    usedByOneModel: users.reduce((count, n) => count + (n === 1 ? 1 : 0), 0),
    degreeOfCommonality: ratio(uses, distinct),
    totalConstantCommonality: complement(ratio(distinct - 1, uses - 1)),
    commonality: complement(ratio(distinct - largest, uses - largest)),
    weightedByCost: weights === undefined ? null : weighted(incidence, users, weights),
  };
}

function weighted(
  { modelCount, partCount, start, parts }: Incidence,
  users: Int32Array,
  { price, quantity, volume }: CommonalityWeights,
): number | null {
  requireLength("prices", price, partCount);
  requireLength("quantities", quantity, parts.length);
  requireLength("volumes", volume, modelCount);
  let shared = 0;
  let all = 0;
  for (let m = 0; m < modelCount; m += 1) {
    for (let i = start[m] ?? 0; i < (start[m + 1] ?? 0); i += 1) {
      const part = parts[i] ?? 0;
      const money = (price[part] ?? 0) * (quantity[i] ?? 0) * (volume[m] ?? 0);
      all += money;
      shared += money * (users[part] ?? 0);
    }
  }
  return ratio(shared, all);
}

function requireLength(name: string, values: ArrayLike<number>, length: number): void {
  if (values.length === length) return;
  throw new Problem(
    "input-invalid",
    `The ${name} must be ${length} long, as the incidence is; received ${values.length}. ` +
      "Give one for each.",
  );
}

function ratio(above: number, below: number): number | null {
  return below > 0 ? above / below : null;
}

function complement(value: number | null): number | null {
  return value === null ? null : 1 - value;
}
