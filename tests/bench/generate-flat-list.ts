/** Mulberry32: a small seeded generator of numbers in [0, 1). Source: T. Ettinger, public domain. */
function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const header = [
  "Vessel",
  "Position",
  "Manufacturer",
  "Model",
  "Category",
  "Function",
  "Tier",
  "Hours per day",
  "Part maker",
  "Part number",
  "Description",
  "Weight (g)",
  "Qty",
  "MTBF hours",
  "Supplier",
  "Supplier code",
  "Price",
  "Lead time",
  "Locker",
  "On board",
  "Expires",
  "Remarks",
];

const kinds = [
  "bilge pump",
  "winch",
  "autopilot drive",
  "diesel",
  "watermaker",
  "windlass",
  "alternator",
];
const things = [
  "impeller",
  "seal kit",
  "belt",
  "bearing",
  "pawl spring",
  "filter",
  "gasket, paper",
  "shear pin",
  "membrane",
  "brush set",
];

/** How a list is kept; what is not named is as in `office`. */
interface FlatShape {
  readonly delimiter?: string;
  readonly lineEnd?: string;
  readonly decimal?: string;
  readonly quoting?: "where needed" | "all" | "none";
  /** Rows per distinct part. */
  readonly rowsPerPart?: number;
  /** Columns nobody knows, each with a sentence. */
  readonly extraColumns?: number;
  /** How many of the 22 columns are kept, from the left. */
  readonly columns?: number;
  readonly isShuffled?: boolean;
}

/** The shapes in which the import is measured. */
export const flatShapes = {
  office: {},
  plain: { quoting: "none" },
  quoted: { quoting: "all" },
  semicolons: { delimiter: ";", lineEnd: "\r\n", decimal: "," },
  shuffled: { isShuffled: true },
  distinct: { rowsPerPart: 1 },
  wide: { extraColumns: 10 },
  narrow: { columns: 14 },
} as const satisfies Readonly<Record<string, FlatShape>>;
export type FlatShapeName = keyof typeof flatShapes;

/**
 * A flat list the way a fleet office keeps it: a row = gear + part + supplier + stock, `rowCount` rows of 22 columns.
 * Every model is fitted on several vessels, so rows repeat models, parts, offers and lots, as real lists do;
 * about one description in ten holds a comma and is quoted. The same seed gives the same text.
 */
export function generateFlatList(
  rowCount: number,
  seed = 1,
  shapeName: FlatShapeName = "office",
): string {
  const shape: FlatShape = flatShapes[shapeName];
  const { delimiter = ",", lineEnd = "\n", decimal = ".", quoting = "where needed" } = shape;
  const { rowsPerPart = 8, extraColumns = 0, columns = header.length, isShuffled = false } = shape;
  const random = seeded(seed);
  const pick = (count: number): number => Math.floor(random() * count);
  const modelCount = Math.max(5, Math.ceil(rowCount / 60));
  const partCount = Math.max(10, Math.ceil(rowCount / rowsPerPart));
  const supplierCount = 40;
  const parts = Array.from({ length: partCount }, (_, at) => {
    const thing = things[pick(things.length)] ?? "seal";
    return {
      maker: `Works ${pick(60) + 1}`,
      number: `${String(pick(90_000) + 10_000)}-${String(at).padStart(5, "0")}`,
      description: `${thing} ${at % 200}`,
      grams: String(5 + pick(4000)),
      mtbf: String(500 * (1 + pick(40))),
      expires: at % 5 === 0 ? `20${27 + pick(5)}-0${1 + pick(9)}-1${pick(10)}` : "",
      onBoard: String(pick(6)),
      locker: `Bin ${1 + (at % 120)}`,
      supplier: 1 + pick(supplierCount),
      price: (1 + random() * 400).toFixed(2).replace(".", decimal),
      lead: String(2 + pick(60)),
    };
  });
  const models = Array.from({ length: modelCount }, (_, at) => {
    const kind = kinds[at % kinds.length] ?? "pump";
    const lines = 8 + pick(10);
    return {
      maker: `Foundry ${1 + (at % 25)}`,
      designation: `${kind.slice(0, 2).toUpperCase()}-${100 + at}`,
      kind,
      lines: Array.from({ length: lines }, () => ({
        part: pick(partCount),
        quantity: 1 + pick(4),
      })),
    };
  });
  const quote = (text: string): string => {
    if (quoting === "none") return text.replaceAll(delimiter, "");
    return quoting === "all" || text.includes(delimiter) ? `"${text}"` : text;
  };
  const extraNames = Array.from({ length: extraColumns }, (_, at) => `Yard note ${at + 1}`);
  const rows = [[...header.slice(0, columns), ...extraNames].map(quote).join(delimiter)];
  for (let item = 0; rows.length <= rowCount; item += 1) {
    const model = models[pick(modelCount)];
    if (model === undefined) continue;
    const vessel = `Vessel ${1 + (item % 12)}`;
    const hours = String(1 + pick(24));
    const met = new Set<number>();
    for (const { part: at, quantity } of model.lines) {
      const part = parts[at];
      if (part === undefined || met.has(at) || rows.length > rowCount) continue;
      met.add(at);
      rows.push(
        [
          vessel,
          `${model.kind} ${item}`,
          model.maker,
          model.designation,
          model.kind,
          `run the ${model.kind}`,
          "passage",
          hours,
          part.maker,
          part.number,
          part.description,
          part.grams,
          String(quantity),
          part.mtbf,
          `Chandlery ${part.supplier}`,
          `C${part.number}`,
          `${part.price} EUR`,
          `${part.lead} days`,
          part.locker,
          part.onBoard,
          part.expires,
          item % 7 === 0 ? "see the log" : "",
        ]
          .slice(0, columns)
          .concat(
            extraNames.map((_, at) => `looked at on day ${(item * 7 + at) % 365}, found sound`),
          )
          .map(quote)
          .join(delimiter),
      );
    }
  }
  for (let at = rows.length - 1; isShuffled && at > 1; at -= 1) {
    const other = 1 + pick(at);
    [rows[at], rows[other]] = [rows[other] ?? "", rows[at] ?? ""];
  }
  return `${rows.join(lineEnd)}${lineEnd}`;
}
