import { node } from "../declaration.ts";
import { requiredText } from "../property.ts";

export const maker = node({
  label: "Maker",
  meaning: "Who makes a model or a part",
  identifiedBy: ["name"],
  nameFrom: "name",
  properties: {
    name: requiredText({
      meaning: "The maker's name",
      headers: {
        en: [
          "maker",
          "make",
          "manufacturer",
          "brand",
          "mfr",
          "made by",
          "manufacturer name",
          "manufacturer/brand",
          "maker name",
          "oem",
          "make/brand",
          "mfg",
          "manuf",
          "manuf.",
          "producer",
          "mfr name",
          "mfgr",
        ],
        de: [
          "hersteller",
          "marke",
          "fabrikat",
          "hersteller/marke",
          "produzent",
          "hersteller name",
          "fabrikant",
        ],
        fr: [
          "fabricant",
          "marque",
          "constructeur",
          "fabricant/marque",
          "constructeur/marque",
          "marque/fabricant",
        ],
        es: ["fabricante", "marca", "fabricante/marca", "marca/fabricante"],
        nl: ["fabrikant", "merk", "producent", "fabricaat", "merk/fabrikant"],
        it: ["produttore", "marca", "costruttore", "fabbricante", "marca/produttore", "casa"],
        pt: ["fabricante", "marca", "fabricante/marca", "produtor"],
      },
    }),
  },
});
