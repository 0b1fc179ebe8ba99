import { type Cell, emptyCell, faultCell, valueCell } from "./cell.ts";

const yes = new Set(
  "yes y true t 1 x ✓ ✔ ☑ ja j wahr oui o vrai sí si s verdadero vero sim on".split(" "),
);
const no = new Set("no n false f 0 ✗ ✘ ☐ nein falsch non faux falso nee não nao off".split(" "));

/** Yes or no in the languages of the headers; a cross or tick is yes; empty is unstated, not no. */
export function parseBoolean(cell: string): Cell<boolean> {
  const text = cell.trim().toLowerCase();
  if (text === "" || text === "?" || text === "-") return emptyCell;
  if (yes.has(text)) return valueCell(true);
  if (no.has(text)) return valueCell(false);
  return faultCell(
    "boolean-unreadable",
    "The cell must say yes or no",
    'Write "yes" or "no", or leave the cell empty if it is not known.',
  );
}
