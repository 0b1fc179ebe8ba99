import { type Incidence, inverseOf, requireIncidence } from "./incidence.ts";
import { linkedGroups } from "./linked-groups.ts";

/** Orders that draw a parts matrix with shared parts in blocks: position → model, position → part. */
export interface BlockOrder {
  readonly models: Int32Array;
  readonly parts: Int32Array;
}

/** Work allowed for the averaging, in visits of uses, and its least and most rounds. */
const VISITS = 60_000_000;
const LEAST_ROUNDS = 20;
const MOST_ROUNDS = 2000;
const SETTLED = 1e-10;

/**
 * An order of models and parts in which models that share parts stand together.
 *
 * Models linked by shared parts, directly or through others, form a group; groups come largest
 * first. Within one, reciprocal averaging: a part scores the mean of its models, a model the mean of
 * its parts, the trivial constant is taken out and the rest rescaled, round after round. That is
 * power iteration for the first axis of correspondence analysis, whose order is a spectral
 * seriation. It starts from the distance to an end model, near the answer for chains. Parts without
 * models and models without parts come last. Ties go by number, and the end with the lowest numbered
 * model comes first, so equal input gives equal order. O(rounds × uses).
 * Throws `input-invalid` for a malformed incidence.
 * Source: M. Hill, J. Ecology 61 (1973), reciprocal averaging; J. Atkins et al., SIAM J. Comput. 28
 * (1998), spectral seriation. The start and the round limits are own choices.
 */
export function blockOrder(incidence: Incidence): BlockOrder {
  requireIncidence(incidence);
  const users = inverseOf(incidence);
  const { groupOfModel, groupOfPart, distance } = linkedGroups(incidence, users);
  // The uneven fraction (multiples of the golden ratio) leaves no symmetry that would hide the axis.
  const modelScore = Float64Array.from(distance, (d, m) => d + 0.1 * ((m * 0.6180339887) % 1));
  const partScore = new Float64Array(incidence.partCount);
  const rounds = Math.floor(VISITS / (2 * incidence.parts.length + 1));
  const limit = Math.min(MOST_ROUNDS, Math.max(LEAST_ROUNDS, rounds));
  const groupCount = groupOfModel.reduce((most, group) => Math.max(most, group + 1), 0);
  for (let round = 0; round < limit; round += 1) {
    const before = modelScore.slice();
    average(users, modelScore, partScore);
    average(incidence, partScore, modelScore);
    standardise(incidence, groupOfModel, groupCount, modelScore);
    if (modelScore.every((score, m) => Math.abs(score - (before[m] ?? 0)) < SETTLED)) break;
  }
  faceForward(groupOfModel, groupCount, modelScore);
  average(users, modelScore, partScore);
  return {
    models: orderBy(groupOfModel, modelScore),
    parts: orderBy(groupOfPart, partScore),
  };
}

/** Each row's score becomes the mean score of its entries; empty rows keep zero. */
function average(rows: Incidence, from: Float64Array, into: Float64Array): void {
  for (let r = 0; r < rows.modelCount; r += 1) {
    const begin = rows.start[r] ?? 0;
    const end = rows.start[r + 1] ?? 0;
    let sum = 0;
    for (let i = begin; i < end; i += 1) sum += from[rows.parts[i] ?? 0] ?? 0;
    into[r] = end > begin ? sum / (end - begin) : 0;
  }
}

/** Within each group: weighted mean zero (weights are uses), largest score one in size. */
function standardise(
  { modelCount, start }: Incidence,
  groupOf: Int32Array,
  groupCount: number,
  score: Float64Array,
): void {
  const weight = new Float64Array(groupCount);
  const mean = new Float64Array(groupCount);
  const size = new Float64Array(groupCount);
  for (let m = 0; m < modelCount; m += 1) {
    const g = groupOf[m] ?? 0;
    const uses = (start[m + 1] ?? 0) - (start[m] ?? 0);
    weight[g] = (weight[g] ?? 0) + uses;
    mean[g] = (mean[g] ?? 0) + uses * (score[m] ?? 0);
  }
  for (let m = 0; m < modelCount; m += 1) {
    const g = groupOf[m] ?? 0;
    const shifted = (score[m] ?? 0) - (mean[g] ?? 0) / Math.max(1, weight[g] ?? 0);
    score[m] = shifted;
    size[g] = Math.max(size[g] ?? 0, Math.abs(shifted));
  }
  for (let m = 0; m < modelCount; m += 1) {
    const largest = size[groupOf[m] ?? 0] ?? 0;
    // Below this the group has one kit only and the remainder is rounding: a tie.
    score[m] = largest > 1e-13 ? (score[m] ?? 0) / largest : 0;
  }
}

/** Turns a group round when its lowest numbered model with a score stands in the second half. */
function faceForward(groupOf: Int32Array, groupCount: number, score: Float64Array): void {
  const sign = new Float64Array(groupCount);
  groupOf.forEach((g, m) => {
    if (sign[g] === 0 && Math.abs(score[m] ?? 0) > 1e-9) sign[g] = (score[m] ?? 0) > 0 ? -1 : 1;
  });
  groupOf.forEach((g, m) => {
    if (sign[g] === -1) score[m] = -(score[m] ?? 0);
  });
}

function orderBy(groupOf: Int32Array, score: Float64Array): Int32Array {
  // Rounded, so that rows alike but for the last bit count as tied and go by number.
  const key = score.map((value) => Math.round(value * 1e9));
  return Int32Array.from(groupOf, (_, index) => index).sort(
    (a, b) => (groupOf[a] ?? 0) - (groupOf[b] ?? 0) || (key[a] ?? 0) - (key[b] ?? 0) || a - b,
  );
}
