import { node } from "../declaration.ts";
import { choice, integer, requiredText } from "../property.ts";

/** The strictness of a need: which target of sufficiency its parts fall under. */
export const tiers = ["safety", "passage", "comfort"] as const;

export type Tier = (typeof tiers)[number];

export const requiredFunction = node({
  label: "RequiredFunction",
  meaning: "Something the vessel must be able to do, needing k of the items that serve it",
  identifiedBy: [">REQUIRED_ON", "name"],
  nameFrom: "name",
  properties: {
    name: requiredText({
      meaning: "What must be possible, as a verb: steer, pump the bilge",
      headers: {
        en: [
          "function",
          "required function",
          "serves",
          "duty",
          "purpose",
          "needed for",
          "job",
          "service needed",
          "must do",
          "function served",
          "role",
          "required duty",
        ],
        de: [
          "funktion",
          "aufgabe",
          "zweck",
          "dient zu",
          "funktion an bord",
          "erforderliche funktion",
        ],
        fr: ["fonction", "sert à", "usage", "fonction requise", "rôle"],
        es: ["función", "sirve para", "función requerida", "tarea"],
        nl: ["functie", "dient voor", "taak", "vereiste functie"],
        it: ["funzione", "scopo", "serve a", "funzione richiesta"],
        pt: ["função", "serve para", "função exigida"],
      },
    }),
    tier: choice(tiers, {
      meaning: "How strict the need is; unstated counts as passage",
      headers: {
        en: [
          "tier",
          "criticality",
          "critical",
          "importance",
          "need level",
          "level of need",
          "priority",
          "severity",
          "class of need",
          "criticality level",
        ],
        de: ["stufe", "wichtigkeit", "kritikalität", "priorität", "dringlichkeit", "klasse"],
        fr: ["niveau", "criticité", "importance", "priorité"],
        es: ["nivel", "criticidad", "importancia", "prioridad"],
        nl: ["niveau", "belang", "kritiek", "prioriteit"],
        it: ["livello", "criticità", "priorità"],
        pt: ["nível", "criticidade", "prioridade"],
      },
    }),
    need: integer({
      meaning:
        "k: how many of the items that serve it must work; unstated counts as all but spare ones, i.e. 1",
      unit: "piece",
      min: 1,
      max: 1000,
      headers: {
        en: [
          "need k",
          "needed",
          "k",
          "must work",
          "minimum working",
          "needs working",
          "how many needed",
          "minimum",
          "required number",
          "number needed",
          "no needed",
          "k of n",
          "at least",
        ],
        de: ["benötigt", "mindestens", "erforderlich", "mind.", "anzahl nötig"],
        fr: ["minimum requis", "nécessaires", "nombre requis", "minimum", "au moins"],
        es: ["mínimo necesario", "mínimo", "necesarios", "al menos"],
        nl: ["minimaal nodig", "minimum", "nodig"],
        it: ["minimo", "necessari", "minimo richiesto"],
        pt: ["mínimo", "necessários"],
      },
    }),
  },
});
