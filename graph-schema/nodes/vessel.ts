import { node } from "../declaration.ts";
import { requiredText, text } from "../property.ts";

export const vessel = node({
  label: "Vessel",
  meaning: "A boat that carries gear and spares",
  identifiedBy: ["name"],
  nameFrom: "name",
  properties: {
    name: requiredText({
      meaning: "The vessel's name",
      headers: {
        en: [
          "vessel",
          "boat",
          "ship",
          "yacht",
          "vessel name",
          "boat name",
          "vessel/boat",
          "name of vessel",
          "craft",
          "hull",
          "for vessel",
          "boat/vessel",
        ],
        de: ["schiff", "boot", "yacht", "schiffsname", "bootsname", "fahrzeug"],
        fr: ["bateau", "navire", "voilier", "nom du bateau", "nom du navire"],
        es: ["barco", "buque", "velero", "embarcación", "nombre del barco", "nave"],
        nl: ["schip", "boot", "scheepsnaam", "vaartuig", "naam schip"],
        it: ["barca", "imbarcazione", "nave", "nome barca"],
        pt: ["barco", "embarcação", "navio", "nome do barco"],
      },
    }),
    kind: text({ meaning: "Rig or type of vessel", headers: { en: ["rig", "vessel type"] } }),
  },
});
