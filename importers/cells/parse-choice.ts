import { normaliseHeader } from "../normalise-header.ts";
import { type Cell, emptyCell, faultCell, valueCell } from "./cell.ts";

/** Other words for a choice of the schema, in several languages; the choice's own name always counts. */
const otherWords: Readonly<Record<string, readonly string[]>> = {
  safety: [
    "sicherheit",
    "sécurité",
    "seguridad",
    "veiligheid",
    "sicurezza",
    "segurança",
    "1 safety",
    "life saving",
    "vital",
  ],
  passage: [
    "überfahrt",
    "traversée",
    "travesía",
    "passage making",
    "essential",
    "wichtig",
    "important",
    "essentiel",
    "essenziell",
    "belangrijk",
  ],
  comfort: ["komfort", "confort", "comodidad", "nice to have", "convenience", "conforto"],
  stop: [
    "stops",
    "stops it",
    "stopped",
    "out of action",
    "ausfall",
    "steht",
    "arrêt",
    "arrete",
    "parada",
    "se para",
    "stopt",
    "fatal",
  ],
  degrade: [
    "degrades",
    "degraded",
    "reduced",
    "eingeschränkt",
    "dégradé",
    "dégrade",
    "degradado",
    "beperkt",
    "partial",
  ],
  none: ["no effect", "keine", "aucun", "ninguno", "geen", "nothing"],
  seldom: ["rare", "rarely", "selten", "rarement", "raro", "zelden", "low", "niedrig"],
  "now and then": [
    "occasional",
    "occasionally",
    "sometimes",
    "gelegentlich",
    "manchmal",
    "parfois",
    "a veces",
    "soms",
    "medium",
    "mittel",
  ],
  often: ["frequent", "frequently", "häufig", "oft", "souvent", "a menudo", "vaak", "high", "hoch"],
  new: ["neu", "neuf", "neuve", "nuevo", "nieuw", "nuovo", "novo", "unused", "as new"],
  serviceable: [
    "ok",
    "good",
    "used good",
    "gut",
    "brauchbar",
    "gebraucht",
    "bon",
    "usable",
    "bueno",
    "usado",
    "goed",
    "servible",
    "working",
  ],
  doubtful: [
    "fair",
    "worn",
    "fraglich",
    "zweifelhaft",
    "douteux",
    "usé",
    "dudoso",
    "twijfelachtig",
    "suspect",
  ],
  unserviceable: [
    "us",
    "bad",
    "broken",
    "defekt",
    "kaputt",
    "hs",
    "hors service",
    "mauvais",
    "defectuoso",
    "kapot",
    "scrap",
  ],
  "1000 hours": ["per 1000 h", "1000 h", "per 1000 hours", "1000h", "kh"],
  year: ["per year", "annual", "a year", "pro jahr", "par an", "por año", "per jaar", "yr", "y"],
  "1000 operations": ["per 1000 operations", "1000 ops", "1000 cycles"],
  maker: ["manufacturer", "hersteller", "fabricant", "fabricante", "fabrikant"],
  published: ["handbook", "literature", "book"],
  "own history": ["history", "own log", "log", "our log", "eigene", "logbook"],
  "class assumption": ["assumption", "assumed", "guess", "estimate", "schätzung", "estimation"],
  confirmed: ["sure", "yes", "certain"],
  likely: ["probable"],
  unproven: ["possible", "maybe"],
};

/** One of the schema's choices, by its own name or a usual word for it in several languages. */
export function choiceReader(choices: readonly string[]): (cell: string) => Cell<string> {
  const words = new Map<string, string>();
  for (const choice of choices) {
    for (const word of otherWords[choice] ?? []) words.set(normaliseHeader(word), choice);
  }
  for (const choice of choices) words.set(normaliseHeader(choice), choice);
  return (cell) => {
    const text = normaliseHeader(cell);
    if (text === "") return emptyCell;
    const choice = words.get(text);
    if (choice !== undefined) return valueCell(choice);
    return faultCell(
      "choice-unknown",
      `The cell must say one of: ${choices.join(", ")}`,
      "Use one of these words, or leave the cell empty.",
    );
  };
}
