import { MilpBuilder, type MilpProgramme } from "../packs/milp.ts";
import { levelsOf, type StandardProblem, type StockLevels } from "./standard-problem.ts";

export interface StandardProgramme {
  readonly programme: MilpProgramme;
  /** Part of the objective that no choice changes. */
  readonly constant: number;
  /** How many positions of each group take each option, read off a solution. */
  readonly decode: (values: Float64Array) => Int32Array[];
}

/**
 * Returns the mixed-integer programme of a standardising problem, exact in the planning model.
 *
 * Columns: n_go >= 0 whole, positions of group g with option o; y_ps binary, one level chosen for each stock whose level
 * can differ, from the least to the greatest its pooled mean can ask for; w_k binary per kit; u_k binary per supplier.
 * Rows: sum_o n_go = count_g; sum cost n <= budget; fixed mean + sum mean n <= sum_s carried(s) y_ps, sum_s y_ps = 1;
 * n_go <= count_g w_kit; per kit and set of sellers, sum u >= w. Means are scaled by the greatest level's mean of the
 * stock so that the solver's tolerance is a relative one.
 * Source: METHODS, standardising; oracle: brute force in tests.
 */
export function standardMilp(
  problem: StandardProblem,
  levels: readonly StockLevels[] = levelsOf(problem),
): StandardProgramme {
  const builder = new MilpBuilder();
  const { groups, stocks, kits } = problem;
  let constant = 0;
  const choices = groups.map(({ count, options }) =>
    options.map(({ cost }) => builder.column(cost, 0, cost > problem.budget ? 0 : count)),
  );
  groups.forEach(({ count }, g) => {
    builder.row(
      count,
      count,
      (choices[g] ?? []).map((column) => [column, 1]),
    );
  });
  if (Number.isFinite(problem.budget)) {
    builder.row(
      Number.NEGATIVE_INFINITY,
      problem.budget,
      groups.flatMap(({ options }, g) =>
        options.map(({ cost }, o) => [choices[g]?.[o] ?? 0, cost] as const),
      ),
    );
  }
  const uses = userColumns(problem, builder, choices);
  const sure = new Map<string, number>();
  const loads = stocks.map((): (readonly [column: number, mean: number])[] => []);
  const least = Float64Array.from(stocks, ({ fixedMean }) => fixedMean);
  const most = least.slice();
  groups.forEach(({ count, options }, g) => {
    const range = new Map<number, { low: number; high: number; seen: number }>();
    options.forEach((option, o) => {
      for (const [stock, mean] of option.loads) {
        loads[stock]?.push([choices[g]?.[o] ?? 0, mean]);
        const known = range.get(stock) ?? { low: Number.POSITIVE_INFINITY, high: 0, seen: 0 };
        known.low = Math.min(known.low, mean);
        known.high = Math.max(known.high, mean);
        known.seen += 1;
        range.set(stock, known);
      }
    });
    for (const [stock, { low, high, seen }] of range) {
      if (seen === options.length) {
        least[stock] = (least[stock] ?? 0) + count * low;
        // An option that is taken puts its own mean in the place of the least.
        for (const column of choices[g] ?? []) sure.set(`${stock} ${column}`, low);
      }
      most[stock] = (most[stock] ?? 0) + count * high;
    }
  });
  stocks.forEach((stock, p) => {
    const own = levels[p];
    if (own === undefined) return;
    const from = own.levelFor(least[p] ?? 0);
    const to = own.levelFor(most[p] ?? 0);
    const costOf = (level: number): number => stock.unitCost * Math.max(0, level - stock.usable);
    // What is aboard already carries the lower levels for nothing.
    const first = Math.min(to, Math.max(from, stock.usable));
    constant += costOf(first);
    if (first === to) return;
    const picks: (readonly [number, number])[] = [];
    const scale = Math.max(own.carried(to), most[p] ?? 0);
    for (let level = first; level <= to; level++) {
      const column = builder.column(costOf(level) - costOf(first), 0, 1);
      picks.push([column, Math.min(own.carried(level), scale)]);
    }
    builder.row(
      1,
      1,
      picks.map(([column]) => [column, 1]),
    );
    builder.row(Number.NEGATIVE_INFINITY, -stock.fixedMean / scale, [
      ...(loads[p] ?? []).map(([column, mean]) => [column, mean / scale] as const),
      ...picks.map(([column, mean]) => [column, -mean / scale] as const),
    ]);
    // Whatever by itself lifts the mean above a level forces one above it; without these rows the relaxation is idle.
    const reached = new Map<number, number>();
    for (const [column, mean] of loads[p] ?? []) {
      const others = (least[p] ?? 0) - (sure.get(`${p} ${column}`) ?? 0);
      let forced = first;
      while (forced < to && own.carried(forced) * (1 + 1e-6) + 1e-9 < others + mean) forced++;
      const user = uses[column];
      if (user === undefined) continue;
      reached.set(user, Math.min(forced, reached.get(user) ?? forced));
    }
    for (const [user, forced] of reached) {
      if (forced === first) continue;
      builder.row(Number.NEGATIVE_INFINITY, 0, [
        [user, 1],
        ...picks.slice(forced - first).map(([column]) => [column, -1] as const),
      ]);
    }
  });
  const kitColumns = kits.map(({ held }) => builder.column(problem.kitCharge, held ? 1 : 0, 1));
  groups.forEach(({ count, options }, g) => {
    const byKit = new Map<number, number[]>();
    options.forEach(({ kit }, o) => {
      if (kit >= 0 && kits[kit]?.held !== true) {
        byKit.set(kit, [...(byKit.get(kit) ?? []), choices[g]?.[o] ?? 0]);
      }
    });
    for (const [kit, columns] of byKit) {
      builder.row(Number.NEGATIVE_INFINITY, 0, [
        ...columns.map((column) => [column, 1] as const),
        [kitColumns[kit] ?? 0, -count],
      ]);
    }
  });
  if (problem.supplierCharge > 0) supplierRows(problem, builder, kitColumns);
  return {
    programme: builder.build("minimise"),
    constant,
    decode: (values) =>
      choices.map((columns) =>
        Int32Array.from(columns, (column) => Math.round(values[column] ?? 0)),
      ),
  };
}

/**
 * Per choice, the column that says whether its model is used at all where it stands: shared by all groups whose option
 * of that model draws on the same stocks, so that a row for each of them says it for all.
 */
function userColumns(
  { groups }: StandardProblem,
  builder: MilpBuilder,
  choices: readonly (readonly number[])[],
): Readonly<Record<number, number>> {
  const users = new Map<string, number>();
  const found: Record<number, number> = {};
  groups.forEach(({ count, options }, g) => {
    options.forEach(({ model, loads }, o) => {
      const column = choices[g]?.[o];
      if (column === undefined || loads.length === 0) return;
      const name = `${model} ${loads.map(([stock]) => stock).join(" ")}`;
      const user = users.get(name) ?? builder.column(0, 0, 1, false);
      users.set(name, user);
      found[column] = user;
      builder.row(Number.NEGATIVE_INFINITY, 0, [
        [column, 1],
        [user, -count],
      ]);
    });
  });
  return found;
}

function supplierRows(
  problem: StandardProblem,
  builder: MilpBuilder,
  kitColumns: readonly number[],
): void {
  const suppliers = Array.from({ length: problem.suppliers }, () =>
    builder.column(problem.supplierCharge, 0, 1),
  );
  const certain = new Set(
    problem.kits.flatMap(({ held, sellers }) => (held ? sellers.map((set) => set.join(" ")) : [])),
  );
  const seen = new Set<string>();
  problem.kits.forEach(({ held, sellers }, kit) => {
    for (const set of sellers) {
      const name = set.join(" ");
      if (held ? seen.has(name) : certain.has(name)) continue;
      seen.add(name);
      const terms = set.map((supplier) => [suppliers[supplier] ?? 0, 1] as const);
      if (held) builder.row(1, Number.POSITIVE_INFINITY, terms);
      else builder.row(0, Number.POSITIVE_INFINITY, [...terms, [kitColumns[kit] ?? 0, -1]]);
    }
  });
}
