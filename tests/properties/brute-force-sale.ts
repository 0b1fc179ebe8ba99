import { judgeSale } from "../../api/scoring/packs/judge-sale.ts";
import { IMPOSSIBLE } from "../../api/scoring/packs/sale-milp.ts";
import type { SaleProblem } from "../../api/scoring/packs/sale-problem.ts";

/** Every count of units of every offer up to where its contents can use no more, one by one. */
function* everyPurchase(problem: SaleProblem): Generator<Int32Array> {
  const choices = problem.offers.map((offer) => {
    const useful = Math.max(
      0,
      ...offer.contents.map(({ part, pieces }) =>
        pieces < 0 ? 0 : Math.ceil((problem.parts[part]?.logCdf.length ?? 1) / pieces) + 1,
      ),
    );
    const least = offer.least ?? 1;
    const most = Math.min(Math.max(least, useful), offer.most ?? Infinity);
    const counts = [0];
    for (let n = least; n <= most; n++) counts.push(n);
    return counts;
  });
  const at = choices.map(() => 0);
  for (;;) {
    yield Int32Array.from(at, (k, u) => choices[u]?.[k] ?? 0);
    let u = 0;
    while (u < at.length && at[u] === (choices[u]?.length ?? 1) - 1) at[u++] = 0;
    if (u === at.length) return;
    at[u] = (at[u] ?? 0) + 1;
  }
}

/** Whether units fit into lockers, every placing tried. */
function fits(problem: SaleProblem, units: ArrayLike<number>): boolean {
  const rooms = (problem.caps.lockers ?? []).map((room) => ({
    mass: room.mass ?? Infinity,
    volume: room.volume ?? Infinity,
  }));
  const loose = problem.offers.flatMap((offer, u) =>
    Array.from({ length: units[u] ?? 0 }, () => offer.uses),
  );
  const place = (at: number): boolean => {
    const unit = loose[at];
    if (unit === undefined) return true;
    return rooms.some((room) => {
      if (room.mass < unit.mass || room.volume < unit.volume) return false;
      room.mass -= unit.mass;
      room.volume -= unit.volume;
      const done = place(at + 1);
      room.mass += unit.mass;
      room.volume += unit.volume;
      return done;
    });
  };
  return place(0);
}

/** The best value over every purchase there is, by the definitions alone; undefined where none will do. */
export function bestByTrying(problem: SaleProblem): number | undefined {
  let best: number | undefined;
  const isMost = problem.aim === "most";
  for (const units of everyPurchase(problem)) {
    const judged = judgeSale(problem, units);
    const must = isMost ? [0] : [0, 1, 2];
    if (!judged.isPossible || !judged.isWithinCaps) continue;
    if (must.some((tier) => (judged.short[tier as 0 | 1 | 2] ?? 1) > 0)) continue;
    const value = isMost
      ? problem.parts.reduce(
          (sum, part, p) =>
            sum +
            problem.weights[part.tier] *
              Math.max(
                IMPOSSIBLE,
                part.logCdf[Math.min(judged.pieces[p] ?? 0, part.logCdf.length - 1)] ?? 0,
              ),
          0,
        )
      : judged.uses[problem.objective];
    if (best !== undefined && (isMost ? value <= best : value >= best)) continue;
    if (problem.caps.lockers === undefined || fits(problem, units)) best = value;
  }
  return best;
}
