import { relationship } from "../declaration.ts";
import { choice, requiredInteger, text } from "../property.ts";

export const madeBy = relationship({
  type: "MADE_BY",
  meaning: "Who makes it",
  from: ["Model", "Part"],
  to: ["Maker"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});

export const contains = relationship({
  type: "CONTAINS",
  meaning: "A service kit sold as one part contains this part",
  from: ["Part"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    quantity: requiredInteger({ meaning: "Pieces inside", unit: "piece", min: 1, max: 100_000 }),
  },
});

export const interchangesWith = relationship({
  type: "INTERCHANGES_WITH",
  meaning: "Two parts that may stand in for each other, both ways",
  from: ["Part"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    source: text({ meaning: "Who says so", headers: { en: ["interchange source"] } }),
    confidence: choice(["confirmed", "likely", "unproven"], {
      meaning: "How sure it is",
      headers: { en: ["interchange confidence"] },
    }),
  },
});

export const supersededBy = relationship({
  type: "SUPERSEDED_BY",
  meaning: "The maker replaced this part by that one; the new serves the old, not the other way",
  from: ["Part"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: { source: text({ meaning: "Who says so" }) },
});
