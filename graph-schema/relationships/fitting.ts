import { relationship } from "../declaration.ts";

export const fittedOn = relationship({
  type: "FITTED_ON",
  meaning: "The vessel an item is fitted on",
  from: ["FittedItem"],
  to: ["Vessel"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});

export const isModel = relationship({
  type: "IS_MODEL",
  meaning: "The model an item is of",
  from: ["FittedItem"],
  to: ["Model"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});

export const serves = relationship({
  type: "SERVES",
  meaning: "The function an item helps to serve",
  from: ["FittedItem"],
  to: ["RequiredFunction"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {},
});

export const requiredOn = relationship({
  type: "REQUIRED_ON",
  meaning: "The vessel that needs the function",
  from: ["RequiredFunction"],
  to: ["Vessel"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});

export const sailedBy = relationship({
  type: "SAILED_BY",
  meaning: "A vessel that makes the crossing",
  from: ["Crossing"],
  to: ["Vessel"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {},
});
