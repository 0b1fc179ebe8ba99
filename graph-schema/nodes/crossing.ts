import { z } from "zod";
import { node } from "../declaration.ts";
import { date, document, integer, requiredText } from "../property.ts";

export const crossing = node({
  label: "Crossing",
  meaning: "A passage to be provided for",
  identifiedBy: ["name"],
  nameFrom: "name",
  properties: {
    name: requiredText({
      meaning: "What the crossing is called",
      headers: {
        en: ["crossing", "passage", "voyage", "crossing name", "route", "leg", "trip"],
        de: ["überfahrt", "reise", "passage", "törn", "strecke"],
        fr: ["traversée", "passage", "route", "voyage"],
        es: ["travesía", "ruta", "pasaje", "viaje"],
        nl: ["oversteek", "reis", "route", "overtocht"],
        it: ["traversata", "viaggio", "rotta"],
        pt: ["travessia", "viagem", "rota"],
      },
    }),
    departs: date({
      meaning: "Planned day of departure",
      headers: {
        en: [
          "departs",
          "departure",
          "departure date",
          "leaves",
          "leave",
          "leaving",
          "sailing date",
          "start date",
          "start",
        ],
        de: ["abfahrt", "abfahrtsdatum", "auslaufen", "start"],
        fr: ["départ", "date de départ", "départ le"],
        es: ["salida", "fecha de salida", "zarpa"],
        nl: ["vertrek", "vertrekdatum"],
        it: ["partenza", "data di partenza"],
        pt: ["partida", "data de partida", "saída"],
      },
    }),
    daysExpected: integer({
      meaning: "Days the crossing should take",
      unit: "day",
      min: 1,
      max: 1000,
      headers: {
        en: [
          "days expected",
          "expected days",
          "days",
          "expected",
          "days (expected)",
          "passage days",
          "duration",
          "duration days",
        ],
        de: ["erwartete tage", "tage", "dauer", "dauer tage"],
        fr: ["jours prévus", "jours", "durée", "durée jours"],
        es: ["días previstos", "días", "duración"],
        nl: ["verwachte dagen", "dagen", "duur"],
        it: ["giorni previsti", "giorni", "durata"],
        pt: ["dias previstos", "dias", "duração"],
      },
    }),
    daysLongest: integer({
      meaning: "Days of the longest case provided for",
      unit: "day",
      min: 1,
      max: 1000,
      headers: {
        en: [
          "days longest",
          "longest days",
          "longest",
          "max days",
          "longest case days",
          "days (longest)",
          "worst case days",
          "days max",
          "maximum days",
        ],
        de: [
          "längstens tage",
          "höchstens tage",
          "tage höchstens",
          "längste tage",
          "max tage",
          "tage max",
        ],
        fr: ["jours au plus", "jours maximum", "au plus long", "max jours", "jours max"],
        es: ["días máximo", "días como máximo", "máx días", "días máx"],
        nl: ["langste dagen", "maximaal dagen", "max dagen"],
        it: ["giorni massimi", "al massimo giorni", "giorni max"],
        pt: ["dias máximo", "no máximo dias", "dias máx"],
      },
    }),
    distanceNm: integer({
      meaning: "Distance in nautical miles",
      unit: "1",
      min: 0,
      headers: {
        en: ["distance nm", "distance", "miles", "distance (nm)", "nautical miles", "nm"],
        de: ["distanz", "seemeilen", "sm"],
        fr: ["milles", "distance (milles)"],
        es: ["millas", "distancia"],
        nl: ["afstand", "zeemijlen", "mijlen"],
        it: ["miglia", "distanza"],
        pt: ["milhas", "distância"],
      },
    }),
    legs: document(
      z.array(
        z.object({
          /** Port it leaves from; absent = where the leg before ended. */
          from: z.string().optional(),
          to: z.string(),
          days: z.number().positive(),
          longestDays: z.number().positive(),
        }),
      ),
      { meaning: "Legs in order, each with its ports and days" },
    ),
  },
});
