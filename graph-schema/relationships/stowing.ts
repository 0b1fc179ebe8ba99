import { relationship } from "../declaration.ts";

export const stowedIn = relationship({
  type: "STOWED_IN",
  meaning: "Where a lot is kept",
  from: ["StockLot"],
  to: ["Locker", "Vessel"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});

export const lotOf = relationship({
  type: "LOT_OF",
  meaning: "The part a lot is of",
  from: ["StockLot"],
  to: ["Part"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});

export const isWithin = relationship({
  type: "IS_WITHIN",
  meaning: "The locker or vessel a locker is in",
  from: ["Locker"],
  to: ["Locker", "Vessel"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});
