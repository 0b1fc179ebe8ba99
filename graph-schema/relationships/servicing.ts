import { relationship } from "../declaration.ts";
import { date, real, requiredInteger } from "../property.ts";

export const serviceOf = relationship({
  type: "SERVICE_OF",
  meaning: "The model the service belongs to",
  from: ["ServiceTask"],
  to: ["Model"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});

export const consumes = relationship({
  type: "CONSUMES",
  meaning: "A service uses up this part, or handles it with a chance of losing it",
  from: ["ServiceTask"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    quantity: requiredInteger({
      meaning: "Pieces used or handled in one service of one item",
      unit: "piece",
      min: 1,
      max: 100_000,
      headers: {
        en: [
          "service qty",
          "consumed",
          "qty consumed",
          "qty per service",
          "used per service",
          "parts per service",
          "quantity per service",
          "qty used in service",
          "pieces per service",
        ],
        de: ["menge pro wartung", "menge je wartung", "verbrauch"],
        fr: ["qté par entretien", "quantité par entretien", "consommation"],
        es: ["cantidad por servicio", "consumo"],
        nl: ["aantal per beurt", "verbruik"],
        it: ["quantità per intervento", "consumo"],
        pt: ["quantidade por serviço", "consumo"],
      },
    }),
    lossChance: real({
      meaning:
        "Absent: the pieces are used up. Present: each handled piece is lost with this chance",
      unit: "1",
      min: 0,
      max: 1,
      headers: {
        en: [
          "loss chance",
          "drop risk",
          "chance lost",
          "chance of loss",
          "lost overboard",
          "loss probability",
          "chance of losing",
        ],
        de: ["verlustrisiko", "verlustwahrscheinlichkeit"],
        fr: ["risque de perte", "probabilité de perte"],
        es: ["riesgo de pérdida", "probabilidad de pérdida"],
        nl: ["kans op verlies"],
        it: ["rischio di perdita"],
        pt: ["risco de perda"],
      },
    }),
  },
});

export const serviced = relationship({
  type: "SERVICED",
  meaning: "When a service of this item was last done",
  from: ["FittedItem"],
  to: ["ServiceTask"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    lastDone: date({
      meaning: "Day it was last done",
      headers: {
        en: [
          "last done",
          "last service",
          "last serviced",
          "last service date",
          "last serviced on",
          "date last done",
          "serviced on",
          "last",
          "done on",
          "last carried out",
        ],
        de: [
          "zuletzt gewartet",
          "letzte wartung",
          "letzte wartung am",
          "zuletzt",
          "zuletzt gemacht",
          "gewartet am",
        ],
        fr: [
          "dernier entretien",
          "fait le",
          "date dernier entretien",
          "dernière révision",
          "dernier",
          "effectué le",
        ],
        es: [
          "último servicio",
          "última revisión",
          "fecha último servicio",
          "hecho el",
          "último mantenimiento",
        ],
        nl: ["laatste onderhoud", "laatste beurt", "laatst gedaan"],
        it: ["ultima manutenzione", "ultimo intervento", "fatto il"],
        pt: ["última manutenção", "último serviço", "feito em"],
      },
    }),
    lastDoneHours: real({
      meaning: "Hours run when it was last done",
      unit: "hour",
      min: 0,
      headers: {
        en: [
          "last done hours",
          "at hours",
          "hours at last service",
          "last service hours",
          "done at hours",
          "at engine hours",
          "last done (h)",
          "last at hours",
        ],
        de: ["bei stunden", "stunden bei letzter wartung", "letzte wartung h"],
        fr: ["heures au dernier entretien", "à heures", "dernier entretien (h)"],
        es: ["horas en el último servicio", "a las horas"],
        nl: ["uren bij laatste onderhoud", "bij uren"],
        it: ["ore all'ultimo intervento", "a ore"],
        pt: ["horas no último serviço", "às horas"],
      },
    }),
  },
});
