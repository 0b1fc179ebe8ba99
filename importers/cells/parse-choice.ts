import { normaliseHeader } from "../normalise-header.ts";
import { type Cell, emptyCell, faultCell, isNothing, valueCell } from "./cell.ts";

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
  confirmed: [
    ...[
      "sure",
      "yes",
      "certain",
      "proven",
      "tried",
      "tested",
      "fitted",
      "y",
      "x",
      "true",
      "✓",
      "✔",
    ],
    ...["ja", "sicher", "bestätigt", "geprüft", "erprobt", "oui", "confirmé", "certain", "vérifié"],
    ...["sí", "si", "confirmado", "seguro", "probado", "bevestigd", "zeker", "getest"],
    ...["confermato", "certo", "provato", "sim", "certo", "testado"],
  ],
  likely: [
    ...["probable", "probably", "very likely", "wahrscheinlich", "vermutlich", "probablement"],
    ...["probablemente", "waarschijnlijk", "probabile", "probabilmente", "provável"],
    ...["provavelmente"],
  ],
  unproven: [
    ...["possible", "possibly", "maybe", "no", "n", "false", "unconfirmed", "not confirmed"],
    ...["untested", "untried", "doubtful", "to check", "?", "✗", "nein", "unbestätigt"],
    ...["nicht bestätigt", "möglich", "vielleicht", "fraglich", "non", "non confirmé", "possible"],
    ...["peut être", "à vérifier", "sin confirmar", "no confirmado", "posible", "quizás"],
    ...["nee", "onbevestigd", "niet bevestigd", "mogelijk", "misschien", "non confermato"],
    ...["possibile", "forse", "da verificare", "não", "não confirmado", "possível", "talvez"],
  ],
  planned: [
    ...["to order", "draft", "wanted", "not ordered", "geplant", "zu bestellen", "offen geplant"],
    ...[
      "prévu",
      "à commander",
      "planeado",
      "por pedir",
      "gepland",
      "te bestellen",
      "nog bestellen",
    ],
    ...["pianificato", "da ordinare", "por encomendar", "a encomendar"],
  ],
  placed: [
    ...["pending", "ausstehend", "en attente", "pendiente", "in attesa", "pendente"],
    ...["ordered", "open", "on order", "sent", "in transit", "shipped", "backorder", "back order"],
    ...["bestellt", "offen", "unterwegs", "commandé", "en cours", "expédié", "en commande"],
    ...["pedido", "en curso", "enviado", "abierto", "besteld", "open", "verzonden", "onderweg"],
    ...["ordinato", "in corso", "spedito", "aperto", "encomendado", "em curso", "aberto"],
  ],
  arrived: [
    ...[
      "received",
      "delivered",
      "here",
      "complete",
      "completed",
      "closed",
      "erhalten",
      "geliefert",
    ],
    ...["angekommen", "erledigt", "reçu", "livré", "arrivé", "recibido", "entregado", "ontvangen"],
    ...["geleverd", "binnen", "ricevuto", "consegnato", "arrivato", "recebido", "entregue"],
  ],
  cancelled: [
    ...["canceled", "void", "withdrawn", "storniert", "abbestellt", "annulé", "anulado"],
    ...["cancelado", "geannuleerd", "annullato"],
  ],
};

/** A word without case, accents and punctuation; marks that are nothing but punctuation as they stand. */
const plain = (word: string): string => normaliseHeader(word) || word.trim();

/** One of the schema's choices, by its own name or a usual word for it in several languages. */
export function choiceReader(choices: readonly string[]): (cell: string) => Cell<string> {
  const words = new Map<string, string>();
  for (const choice of choices) {
    for (const word of otherWords[choice] ?? []) words.set(plain(word), choice);
  }
  for (const choice of choices) words.set(plain(choice), choice);
  return (cell) => {
    const choice = words.get(plain(cell));
    if (choice !== undefined) return valueCell(choice);
    if (isNothing(cell.trim()) || normaliseHeader(cell) === "") return emptyCell;
    return faultCell(
      "choice-unknown",
      `The cell must say one of: ${choices.join(", ")}`,
      "Use one of these words, or leave the cell empty.",
    );
  };
}
