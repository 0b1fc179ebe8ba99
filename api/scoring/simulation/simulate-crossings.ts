import { type CrossingModel, demandKind } from "./crossing-model.ts";
import { type CrossingTally, emptyTally, type StockTally } from "./crossing-tally.ts";
import { crossingDrawer } from "./draw-crossing.ts";
import { EventList } from "./event-list.ts";
import { shortagePlayer } from "./play-shortages.ts";
import { seededStream } from "./xoshiro.ts";

/** Crossings in one piece of the work; a seed's figures depend on it, so it is the same everywhere. */
export const pieceSize = 5_000;

/**
 * Returns a function that plays `crossings` crossings of one piece of the work, the same draws for every stock.
 *
 * Per crossing every demand is drawn (draw-crossing.ts) and counted per part; parts that their stock covers cannot
 * change anything further (a supersession tree's once all of its parts are covered by their own stock), so only the demands on the others are put in order of time and played
 * (play-shortages.ts). O(demands) a crossing where nothing runs short.
 *
 * @param stocks pieces aboard per part class, one array for each stock to be judged
 */
export function crossingSimulator(
  model: CrossingModel,
  stocks: readonly Int32Array[],
): (seed: number, piece: number, crossings: number) => CrossingTally {
  const parts = model.tier.length;
  const draw = crossingDrawer(model);
  const player = shortagePlayer(model);
  const events = new EventList();
  const demand = new Int32Array(parts);
  const tierIsShort = new Uint8Array(3);
  const unmetFromStart = model.functions.some((f) => f.items.length < f.need);
  const { newer } = model;
  /** The newest part each leads to, and all that lead to it: they stand and fall together. */
  const newest = Int32Array.from(newer, (_, part) => {
    let at = part;
    while ((newer[at] ?? -1) >= 0) at = newer[at] ?? -1;
    return at;
  });
  const together: number[][] = Array.from({ length: parts }, () => []);
  newest.forEach((root, part) => {
    together[root]?.push(part);
  });
  /** Demand that older parts leave to a newer one. */
  const left = new Int32Array(parts);
  /** Whether any part of the tree is asked for beyond its own stock, by newest part. */
  const isExceeded = new Uint8Array(parts);
  let order = new Int32Array(256);

  /** Indices of the events that matter to this stock, in order of time. */
  const choose = (stock: Int32Array): number => {
    if (order.length < events.length) order = new Int32Array(2 * events.length);
    isExceeded.fill(0);
    for (let part = 0; part < parts; part++) {
      if ((demand[part] ?? 0) > (stock[part] ?? 0)) isExceeded[newest[part] ?? -1] = 1;
    }
    let count = 0;
    for (let at = 0; at < events.length; at++) {
      const part = events.part[at] ?? -1;
      const matters =
        events.kind[at] === demandKind.unsparable ||
        (part >= 0 && isExceeded[newest[part] ?? -1] === 1);
      if (matters) order[count++] = at;
    }
    if (count > 1) order.subarray(0, count).sort(byDay);
    return count;
  };
  const byDay = (a: number, b: number): number =>
    (events.day[a] ?? 0) - (events.day[b] ?? 0) || a - b;

  const judge = (stock: Int32Array, tally: StockTally): void => {
    tierIsShort.fill(0);
    let isShort = false;
    left.fill(0);
    for (let part = 0; part < parts; part++) {
      const asked = (demand[part] ?? 0) + (left[part] ?? 0);
      const over = asked - (stock[part] ?? 0) - (model.credit[part] ?? 0);
      if (over <= 0) continue;
      const next = newer[part] ?? -1;
      if (next >= 0) {
        left[next] = (left[next] ?? 0) + over;
        continue;
      }
      isShort = true;
      for (const one of together[part] ?? []) {
        tally.partShort[one] = (tally.partShort[one] ?? 0) + 1;
      }
      tierIsShort[model.tier[part] ?? 0] = 1;
    }
    for (let tier = 0; tier < 3; tier++) {
      tally.tierShort[tier] = (tally.tierShort[tier] ?? 0) + (tierIsShort[tier] ?? 0);
    }
    const count = choose(stock);
    if (count === 0 && !unmetFromStart) return;
    const counted = player.play(events, order, count, stock, "as counted");
    let isLost = false;
    counted.lost.forEach((value, f) => {
      tally.lostAsCounted[f] = (tally.lostAsCounted[f] ?? 0) + value;
      const asked = model.functions[f];
      const couldBeMet = asked !== undefined && asked.items.length >= asked.need;
      if (value === 1 && couldBeMet && asked?.isSafety === false) isLost = true;
    });
    if (isLost && !isShort) tally.lostThoughProvided += 1;
    const lived = player.play(events, order, count, stock, "as lived");
    lived.lost.forEach((value, f) => {
      tally.lostAsLived[f] = (tally.lostAsLived[f] ?? 0) + value;
    });
    tally.itemsStopped += lived.itemsStopped;
    tally.piecesRobbed += lived.piecesRobbed;
  };

  return (seed, piece, crossings) => {
    const random = seededStream(seed, piece);
    const tally = emptyTally(stocks.length, parts, model.functions.length);
    tally.crossings = crossings;
    for (let crossing = 0; crossing < crossings; crossing++) {
      events.length = 0;
      draw(random, events);
      tally.demands += events.length;
      demand.fill(0);
      for (let at = 0; at < events.length; at++) {
        const part = events.part[at] ?? -1;
        if (part >= 0) demand[part] = (demand[part] ?? 0) + 1;
      }
      stocks.forEach((stock, at) => {
        const own = tally.stocks[at];
        if (own !== undefined) judge(stock, own);
      });
    }
    return tally;
  };
}
