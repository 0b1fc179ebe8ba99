import { type CrossingModel, demandKind } from "./crossing-model.ts";
import type { EventList } from "./event-list.ts";

/**
 * "as counted": every demand falls on running gear, and failures that no spare mends are left out, as the formulas
 * have it. "as lived": what is stopped rests, and failures that no spare mends stop their item.
 */
export type PlayMode = "as counted" | "as lived";

/** What became of the vessel in one play; read it before the next. */
export interface Play {
  /** Plays the events at `order` (indices in order of time) and returns what became of the functions. */
  play(
    events: EventList,
    order: Int32Array,
    count: number,
    stock: Int32Array,
    mode: PlayMode,
  ): PlayOutcome;
}

export interface PlayOutcome {
  /** 1 where the function was lost at any time. */
  readonly lost: Uint8Array;
  itemsStopped: number;
  piecesRobbed: number;
}

/**
 * Returns a player of the shortages of one crossing in order of time.
 *
 * A demand takes a spare while there is one. Without: a service or a failure that does not stop waits. A failure that
 * stops is mended, where robbing is allowed and the part is not safety gear, from an item stopped already; else one
 * item stops and gives its pieces: of the failed one and the running ones that hold the part, the one that serves the
 * fewest functions of those that every function they serve can spare; the failed one where there is none. Items that
 * serve a safety function give nothing. Where a newer part may be fitted in place of an older one, the same is tried
 * step by step with each newer part, before the failed item stops to the loss of a function; what the kit counts as credit comes before
 * a newer spare, since it suits fewer demands. A function is lost once fewer items run than it needs.
 * Source: METHODS, sections 2, 6 and 9; own derivation that this order keeps as many items as any can.
 */
export function shortagePlayer(model: CrossingModel): Play {
  const { functions, holders, robbing, newer } = model;
  const classes = model.tier.length;
  const holdersOf: number[][] = Array.from({ length: classes }, () => []);
  holders.forEach((holder, at) => {
    holdersOf[holder.part]?.push(at);
  });
  const servesOf: number[][] = Array.from({ length: model.items }, () => []);
  functions.forEach((f, at) => {
    for (const item of f.items) servesOf[item]?.push(at);
  });
  for (const own of holdersOf) {
    own.sort((a, b) => {
      const [one, other] = [holders[a]?.item ?? 0, holders[b]?.item ?? 0];
      return (servesOf[one]?.length ?? 0) - (servesOf[other]?.length ?? 0) || one - other;
    });
  }
  const lends = servesOf.map((own) => own.every((at) => functions[at]?.isSafety !== true));
  const fitted = Int32Array.from(functions, (f) => f.items.length);
  const need = Int32Array.from(functions, (f) => f.need);

  const left = new Int32Array(classes);
  const credit = new Int32Array(classes);
  const missing = new Int32Array(holders.length);
  const isDown = new Uint8Array(model.items);
  const running = new Int32Array(functions.length);
  const lost = new Uint8Array(functions.length);
  const outcome: PlayOutcome = { lost, itemsStopped: 0, piecesRobbed: 0 };

  const canSpare = (item: number): boolean => {
    const own = servesOf[item] ?? [];
    return (
      own.length > 0 &&
      lends[item] === true &&
      own.every((at) => (running[at] ?? 0) > (need[at] ?? 0))
    );
  };
  const stop = (item: number): void => {
    if (isDown[item] === 1) return;
    isDown[item] = 1;
    outcome.itemsStopped += 1;
    for (const at of servesOf[item] ?? []) {
      running[at] = (running[at] ?? 0) - 1;
      if ((running[at] ?? 0) < (need[at] ?? 0)) lost[at] = 1;
    }
  };
  const isWhole = (at: number): boolean => (missing[at] ?? 0) < (holders[at]?.pieces ?? 0);
  const rob = (at: number): void => {
    missing[at] = (missing[at] ?? 0) + 1;
    outcome.piecesRobbed += 1;
  };
  /** A good piece of the part in an item that is stopped (`running` false) or can be spared; -1 none. */
  const findDonor = (part: number, but: number, fromRunning: boolean): number => {
    for (const at of holdersOf[part] ?? []) {
      const item = holders[at]?.item ?? -1;
      if (item === but || lends[item] !== true || !isWhole(at)) continue;
      if (fromRunning ? isDown[item] === 0 && canSpare(item) : isDown[item] === 1) return at;
    }
    return -1;
  };
  /** The holder a failure falls on when all of them fall on running gear: itself, else one of its model; -1 none. */
  const runningHolder = (at: number): number => {
    if (isDown[holders[at]?.item ?? -1] === 0) return at;
    const { part = -1, model: make } = holders[at] ?? {};
    const isRunning = (other: number): boolean =>
      holders[other]?.model === make && isDown[holders[other]?.item ?? -1] === 0;
    return (holdersOf[part] ?? []).find(isRunning) ?? -1;
  };
  /**
   * Takes a good piece of `part` for a failure of `item` from a stopped item, or from one that every function it serves can spare, or
   * gives the failed item up itself where it can be spared and none that serves fewer functions can. False: nothing gives.
   */
  const robOrGiveUp = (part: number, holder: number): boolean => {
    if (!robbing || model.isSafety[part] === 1) return false;
    const item = holders[holder]?.item ?? -1;
    const stopped = findDonor(part, item, false);
    if (stopped >= 0) {
      rob(stopped);
      return true;
    }
    const spared = findDonor(part, item, true);
    const serves = servesOf[item]?.length ?? 0;
    const isDearer =
      !canSpare(item) || serves > (servesOf[holders[spared]?.item ?? -1]?.length ?? 0);
    if (serves > 0 && spared >= 0 && isDearer) {
      rob(spared);
      stop(holders[spared]?.item ?? -1);
      return true;
    }
    if (!canSpare(item)) return false;
    missing[holder] = (missing[holder] ?? 0) + 1;
    stop(item);
    return true;
  };
  /** Whether any item can give a piece of the part with every function still met. */
  const canGive = (part: number): boolean =>
    robbing &&
    model.isSafety[part] !== 1 &&
    (findDonor(part, -1, false) >= 0 || findDonor(part, -1, true) >= 0);
  /** Meets a demand from the part itself or what supersedes it, nearest first; `holder` of a failure that stops, else -1. */
  const meet = (part: number, holder: number): void => {
    // Safety gear takes nothing from other gear, of a newer part neither.
    const isSafety = model.isSafety[part] === 1;
    for (let at = part; at >= 0; at = newer[at] ?? -1) {
      if ((left[at] ?? 0) > 0) {
        left[at] = (left[at] ?? 0) - 1;
        return;
      }
      if ((credit[at] ?? 0) <= 0 || isSafety) continue;
      if (holder < 0) {
        if (canGive(at)) return;
      } else if (robOrGiveUp(at, holder)) {
        credit[at] = (credit[at] ?? 0) - 1;
        return;
      }
    }
    if (holder < 0) return;
    for (let at = part; at >= 0 && !isSafety; at = newer[at] ?? -1) {
      if (robOrGiveUp(at, holder)) return;
    }
    missing[holder] = (missing[holder] ?? 0) + 1;
    stop(holders[holder]?.item ?? -1);
  };

  return {
    play(events, order, count, stock, mode) {
      left.set(stock);
      credit.set(model.credit);
      missing.fill(0);
      isDown.fill(0);
      running.set(fitted);
      outcome.itemsStopped = 0;
      outcome.piecesRobbed = 0;
      for (let f = 0; f < lost.length; f++) lost[f] = (fitted[f] ?? 0) < (need[f] ?? 0) ? 1 : 0;
      const isLived = mode === "as lived";
      for (let k = 0; k < count; k++) {
        const at = order[k] ?? 0;
        const kind = events.kind[at] ?? 0;
        const item = events.item[at] ?? 0;
        const part = events.part[at] ?? -1;
        if (isLived && isDown[item] === 1) continue;
        if (kind === demandKind.unsparable) {
          if (isLived) stop(item);
        } else {
          const own = kind === demandKind.stops ? (events.holder[at] ?? -1) : -1;
          const holder = isLived || own < 0 || (left[part] ?? 0) > 0 ? own : runningHolder(own);
          if (kind !== demandKind.stops || holder >= 0) meet(part, holder);
        }
      }
      return outcome;
    },
  };
}
