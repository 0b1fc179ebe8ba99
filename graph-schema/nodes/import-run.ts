import { node } from "../declaration.ts";
import { integer, moment, requiredText, text } from "../property.ts";

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
