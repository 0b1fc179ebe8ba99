import { z } from "zod";
import { node } from "../declaration.ts";
import {
  date,
  document,
  integer,
  moment,
  requiredChoice,
  requiredText,
  text,
} from "../property.ts";

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
        de: ["längstens tage", "höchstens tage", "tage höchstens", "längste tage"],
        fr: ["jours au plus", "jours maximum", "au plus long"],
        es: ["días máximo", "días como máximo"],
        nl: ["langste dagen", "maximaal dagen"],
        it: ["giorni massimi", "al massimo giorni"],
        pt: ["dias máximo", "no máximo dias"],
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
          to: z.string(),
          days: z.number().positive(),
          longestDays: z.number().positive(),
        }),
      ),
      { meaning: "Legs in order, each with its port and days" },
    ),
  },
});

export const order = node({
  label: "Order",
  meaning: "What is bought of one supplier at one time",
  identifiedBy: ["reference"],
  nameFrom: "reference",
  properties: {
    reference: requiredText({
      meaning: "Our own order number",
      headers: { en: ["order", "order no", "order reference"] },
    }),
    status: requiredChoice(["planned", "placed", "arrived", "cancelled"], {
      meaning: "How far it has come",
    }),
    placed: date({ meaning: "Day it was placed" }),
    neededBy: date({ meaning: "Day by which it must be aboard" }),
    lines: document(
      z.array(
        z.object({
          part: z.string(),
          quantity: z.number().int().positive(),
          priceMinor: z.number().int().nonnegative().optional(),
          currency: z.string().optional(),
        }),
      ),
      { meaning: "Parts and quantities" },
    ),
  },
});

export const importRun = node({
  label: "Import",
  meaning: "One file taken into the graph, which can be undone whole",
  identifiedBy: ["reference"],
  nameFrom: "reference",
  properties: {
    reference: requiredText({ meaning: "Our own import number" }),
    fileName: text({ meaning: "Name of the file" }),
    fileHash: text({ meaning: "SHA-256 of its bytes, hexadecimal" }),
    listKind: text({ meaning: "Which kind of list it was read as" }),
    at: moment({ meaning: "When it was committed" }),
    who: text({ meaning: "Who committed it" }),
    read: integer({ meaning: "Rows read", unit: "1", min: 0 }),
    accepted: integer({ meaning: "Rows accepted", unit: "1", min: 0 }),
    rejected: integer({ meaning: "Rows rejected", unit: "1", min: 0 }),
    skipped: integer({ meaning: "Rows skipped", unit: "1", min: 0 }),
    undone: text({ meaning: "When it was undone, if it was" }),
  },
});
