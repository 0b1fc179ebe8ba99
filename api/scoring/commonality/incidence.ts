import { Problem } from "../../errors/problem.ts";

/**
 * Which model takes which part classes, as compressed rows: model `m` takes
 * `parts[start[m] .. start[m+1]-1]`, each class at most once, in any order.
 */
export interface Incidence {
  readonly modelCount: number;
  readonly partCount: number;
  /** Length `modelCount + 1`, rising from 0 to `parts.length`. */
  readonly start: Int32Array;
  /** Part class numbers in [0, partCount). */
  readonly parts: Int32Array;
}

/** The incidence of lists of part classes, one per model; repeats within a list are dropped. */
export function incidenceOf(lists: readonly (readonly number[])[], partCount: number): Incidence {
  const rows = lists.map((list) => [...new Set(list)]);
  const start = new Int32Array(rows.length + 1);
  rows.forEach((row, m) => {
    start[m + 1] = (start[m] ?? 0) + row.length;
  });
  const incidence = {
    modelCount: rows.length,
    partCount,
    start,
    parts: Int32Array.from(rows.flat()),
  };
  requireIncidence(incidence);
  return incidence;
}

/** Throws `input-invalid` unless rows are well formed and every part number is in range. O(n). */
export function requireIncidence({ modelCount, partCount, start, parts }: Incidence): void {
  const stop = (rule: string, received: string): never => {
    throw new Problem(
      "input-invalid",
      `${rule}; received ${received}. Rebuild the incidence from the graph.`,
    );
  };
  if (start.length !== modelCount + 1 || start[0] !== 0 || start[modelCount] !== parts.length) {
    stop("Row starts must run from 0 to the number of uses", `${start.length} starts`);
  }
  const seenIn = new Int32Array(partCount).fill(-1);
  for (let m = 0; m < modelCount; m += 1) {
    const end = start[m + 1] ?? 0;
    if (end < (start[m] ?? 0)) stop("Row starts must not fall", `a fall after model ${m}`);
    for (let i = start[m] ?? 0; i < end; i += 1) {
      const part = parts[i] ?? -1;
      if (part < 0 || part >= partCount) {
        stop(`A part class must lie in [0, ${partCount})`, `${part} in model ${m}`);
      }
      if (seenIn[part] === m)
        stop("A model lists a part class once", `${part} twice in model ${m}`);
      seenIn[part] = m;
    }
  }
}

/** The same relation read the other way: for each part class, the models that take it, rising. O(n). */
export function inverseOf({ modelCount, partCount, start, parts }: Incidence): Incidence {
  const inverseStart = new Int32Array(partCount + 1);
  for (const part of parts) inverseStart[part + 1] = (inverseStart[part + 1] ?? 0) + 1;
  for (let p = 0; p < partCount; p += 1) {
    inverseStart[p + 1] = (inverseStart[p + 1] ?? 0) + (inverseStart[p] ?? 0);
  }
  const next = inverseStart.slice();
  const models = new Int32Array(parts.length);
  for (let m = 0; m < modelCount; m += 1) {
    for (let i = start[m] ?? 0; i < (start[m + 1] ?? 0); i += 1) {
      const part = parts[i] ?? 0;
      const at = next[part] ?? 0;
      models[at] = m;
      next[part] = at + 1;
    }
  }
  return { modelCount: partCount, partCount: modelCount, start: inverseStart, parts: models };
}
