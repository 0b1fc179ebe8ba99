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
    quantity: requiredInteger({
      meaning: "Pieces inside one kit",
      unit: "piece",
      min: 1,
      max: 100_000,
      headers: {
        en: [
          "pieces inside",
          "qty in kit",
          "quantity in kit",
          "pieces in kit",
          "per kit",
          "qty per kit",
        ],
        de: ["stück im satz", "menge im satz", "anzahl im satz", "pro satz"],
        fr: ["qté par kit", "quantité par kit", "pièces par kit", "par kit"],
        es: ["cantidad por kit", "unidades por kit", "por kit", "piezas por kit"],
        nl: ["aantal in set", "aantal per set", "stuks per set", "aantal in kit"],
        it: ["quantità per kit", "pezzi per kit", "per kit"],
        pt: ["quantidade por kit", "peças por kit", "por kit"],
      },
    }),
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
    source: text({
      meaning: "Who says so",
      headers: {
        en: ["interchange source", "source", "says who", "according to", "evidence", "where from"],
        de: ["quelle", "laut", "beleg"],
        fr: ["source", "selon", "d'après"],
        es: ["fuente", "según"],
        nl: ["bron", "volgens"],
        it: ["fonte", "secondo"],
        pt: ["fonte", "segundo"],
      },
    }),
    confidence: choice(["confirmed", "likely", "unproven"], {
      meaning: "How sure it is",
      headers: {
        en: [
          "interchange confidence",
          "confidence",
          "confirmed",
          "how sure",
          "sure",
          "certainty",
          "proven",
        ],
        de: ["bestätigt", "gewissheit", "wie sicher", "erprobt"],
        fr: ["confirmé", "confiance", "certitude"],
        es: ["confirmado", "confianza", "certeza"],
        nl: ["bevestigd", "zekerheid"],
        it: ["confermato", "certezza"],
        pt: ["confirmado", "certeza"],
      },
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
  properties: {
    source: text({
      meaning: "Who says so",
      headers: {
        en: [
          "supersession source",
          "source",
          "says who",
          "according to",
          "bulletin",
          "service bulletin",
        ],
        de: ["quelle", "laut", "beleg", "serviceblatt"],
        fr: ["source", "selon", "bulletin", "note technique"],
        es: ["fuente", "según", "boletín"],
        nl: ["bron", "volgens", "bulletin"],
        it: ["fonte", "secondo", "bollettino"],
        pt: ["fonte", "segundo", "boletim"],
      },
    }),
  },
});
