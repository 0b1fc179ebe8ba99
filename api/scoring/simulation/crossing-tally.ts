/** Counts over crossings for one stock; every member a whole number, so sums do not depend on their order. */
export interface StockTally {
  /** Crossings in which some part of the tier ran short, stock and credit spent. */
  readonly tierShort: Float64Array;
  /** The same per part class. */
  readonly partShort: Float64Array;
  /** Crossings in which the function was lost, every demand falling on running gear. */
  readonly lostAsCounted: Float64Array;
  /** Crossings in which it was lost as lived: stopped gear rests, what no spare mends stops. */
  readonly lostAsLived: Float64Array;
  /** Crossings in which no part ran short and yet a function outside safety was lost, as counted: none in theory. */
  lostThoughProvided: number;
  itemsStopped: number;
  piecesRobbed: number;
}

export interface CrossingTally {
  crossings: number;
  demands: number;
  readonly stocks: readonly StockTally[];
}

export const emptyTally = (stocks: number, parts: number, functions: number): CrossingTally => ({
  crossings: 0,
  demands: 0,
  stocks: Array.from({ length: stocks }, () => ({
    tierShort: new Float64Array(3),
    partShort: new Float64Array(parts),
    lostAsCounted: new Float64Array(functions),
    lostAsLived: new Float64Array(functions),
    lostThoughProvided: 0,
    itemsStopped: 0,
    piecesRobbed: 0,
  })),
});

/** Adds what another piece of the work counted. */
export function addTally(sum: CrossingTally, more: CrossingTally): void {
  sum.crossings += more.crossings;
  sum.demands += more.demands;
  sum.stocks.forEach((stock, at) => {
    const other = more.stocks[at];
    if (other === undefined) return;
    for (const name of ["tierShort", "partShort", "lostAsCounted", "lostAsLived"] as const) {
      const column = stock[name];
      other[name].forEach((value, index) => {
        column[index] = (column[index] ?? 0) + value;
      });
    }
    for (const name of ["lostThoughProvided", "itemsStopped", "piecesRobbed"] as const) {
      stock[name] += other[name];
    }
  });
}
