import { Problem } from "../api/errors/problem.ts";
import { fixedColumns } from "./fixed-columns.ts";
import { type HeaderForms, headerForms, nameLikeness } from "./header-likeness.ts";
import { type ListKind, type ListKindName, listKindNames, listKinds } from "./list-kinds.ts";
import { isProblemColumn } from "./problem-columns.ts";
import type { Table } from "./reading/read-table.ts";
import { type Target, targets } from "./targets.ts";

/** How one column of a file is understood. */
export interface ColumnMatch {
  readonly column: number;
  readonly header: string;
  /** `Label.property` or `TYPE.property`; undefined = kept with its row, not interpreted. */
  readonly target: string | undefined;
  /** 0 to 1; 1 for a match by hand. */
  readonly confidence: number;
  readonly byHand: boolean;
  /** Columns this program added itself to rejected rows, passed over. */
  readonly ignored: boolean;
}

export interface Matching {
  readonly kind: ListKindName;
  readonly columns: readonly ColumnMatch[];
  /** Columns that are known but not read, since a field they hang on is missing. */
  readonly orphans: readonly { readonly header: string; readonly needs: string }[];
  /** Kinds the list could also be, best first, with the sum of confidences of their columns. */
  readonly kindScores: readonly { readonly kind: ListKindName; readonly score: number }[];
}

export interface MatchOptions {
  readonly listKind?: string | undefined;
  /** Header text to `Label.property`, or null to leave the column uninterpreted. */
  readonly mapping?: Readonly<Record<string, string | null>> | undefined;
  /** Supplier of the whole file: its list needs no column that names one. */
  readonly supplier?: string | undefined;
}

/** Below this a likeness is no match. */
const leastConfidence = 0.6;

interface Candidate {
  readonly column: number;
  readonly target: Target;
  readonly confidence: number;
  /** Place of the name among those of the field: the first ones mean it most plainly. */
  readonly nameRank: number;
  readonly rank: number;
}

const targetsOf = (kind: ListKind): readonly Target[] =>
  kind.holds.flatMap((held) =>
    held.includes(".")
      ? [targets.get(held)].filter((target) => target !== undefined)
      : [...targets.values()].filter(
          ({ owner, onlyIn }) =>
            owner === held && (onlyIn === undefined || onlyIn.includes(kind.name)),
        ),
  );

/** Names of the thing a label stands for ("supplier", "vendor"), which people put before its properties. */
const entityNames = (owner: string): readonly string[] =>
  targets.get(`${owner}.name`)?.names ??
  {
    Part: ["part", "spare", "teil", "piece", "pieza", "onderdeel"],
    FittedItem: ["item", "gear", "equipment", "unit"],
    Model: targets.get("Model.designation")?.names ?? [],
  }[owner] ??
  [];

/** Weight of a name from another language than the file's: enough to decide between equals, no more. */
const foreignWeight = 0.93;

/** The language in which most headers are declared names, if one stands out; "designation" means different things. */
function languageOf(forms: readonly HeaderForms[]): string | undefined {
  const votes = new Map<string, number>();
  for (const { whole, base } of forms) {
    const languages = new Set<string>();
    for (const { languagesOf } of targets.values()) {
      for (const language of languagesOf.get(whole) ?? languagesOf.get(base) ?? []) {
        languages.add(language);
      }
    }
    for (const language of languages) {
      votes.set(language, (votes.get(language) ?? 0) + 1 / languages.size);
    }
  }
  const [first, second] = [...votes].sort((a, b) => b[1] - a[1]);
  return first !== undefined && first[1] > (second?.[1] ?? 0) * 1.2 ? first[0] : undefined;
}

/** How like the names of fields headers are, as far as the kind of list plays no part: worked out once for all kinds. */
class PlainLikenesses {
  readonly language: string | undefined;
  readonly #known = new Map<HeaderForms, Map<Target, number>>();

  constructor(language: string | undefined) {
    this.language = language;
  }

  of(forms: HeaderForms, target: Target): number {
    let ofForms = this.#known.get(forms);
    if (ofForms === undefined) {
      ofForms = new Map();
      this.#known.set(forms, ofForms);
    }
    let value = ofForms.get(target);
    if (value === undefined) {
      value = plainLikeness(forms, target, this.language);
      ofForms.set(target, value);
    }
    return value;
  }
}

function plainLikeness(forms: HeaderForms, target: Target, language: string | undefined): number {
  let best = 0;
  for (const name of target.names) {
    const isForeign =
      language !== undefined && target.languagesOf.get(name)?.has(language) !== true;
    best = Math.max(best, nameLikeness(forms, name) * (isForeign ? foreignWeight : 1));
  }
  if (best < 0.9) {
    for (const entity of entityNames(target.owner)) {
      if (!forms.base.includes(entity)) continue;
      const rest = ` ${forms.base} `.replace(` ${entity} `, " ").trim();
      if (rest !== "" && rest !== forms.base && target.names.includes(rest))
        best = Math.max(best, 0.9);
    }
  }
  return best;
}

function likeness(
  forms: HeaderForms,
  target: Target,
  kind: ListKind,
  plain: PlainLikenesses,
): number {
  let best = plain.of(forms, target);
  const consider = (name: string, weight: number): void => {
    const value = nameLikeness(forms, name) * weight;
    if (value > best) best = value;
  };
  for (const name of kind.named?.[target.id] ?? []) consider(name, 0.98);
  for (const name of kind.alsoNamed[target.id] ?? []) consider(name, 0.75);
  for (const other of kind.takesNamesOf[target.id] ?? []) {
    for (const name of targets.get(other)?.names ?? []) consider(name, 0.75);
  }
  // "Weight g": a unit or currency may follow without brackets.
  if (
    best === 0 &&
    forms.butLast !== "" &&
    (target.unit !== undefined || target.kind === "money")
  ) {
    if (target.names.includes(forms.butLast) && target.unit !== "piece") best = 0.9;
  }
  return best;
}

interface Assignment {
  readonly chosen: ReadonlyMap<number, Candidate>;
  readonly score: number;
  /** Columns left out for want of the field named, by index. */
  readonly orphans?: ReadonlyMap<number, string>;
}

/** Pairs columns and fields one to one, surest first; of equals the leftmost column and the earlier field. */
function assign(
  candidates: readonly Candidate[],
  fixed: ReadonlyMap<number, Target | undefined>,
  without: ReadonlySet<string>,
): Assignment {
  const chosen = new Map<number, Candidate>();
  const taken = new Set<string>();
  for (const [column, target] of fixed) {
    if (target === undefined) continue;
    chosen.set(column, { column, target, confidence: 1, nameRank: 0, rank: 0 });
    taken.add(target.id);
  }
  const sorted = [...candidates].sort(
    (a, b) =>
      b.confidence - a.confidence ||
      a.nameRank - b.nameRank ||
      a.column - b.column ||
      a.rank - b.rank,
  );
  for (const candidate of sorted) {
    const { column, target } = candidate;
    if (fixed.has(column) || chosen.has(column)) continue;
    if (taken.has(target.id) || without.has(target.owner) || without.has(target.id)) continue;
    chosen.set(column, candidate);
    taken.add(target.id);
  }
  let score = 0;
  for (const { confidence } of chosen.values()) score += confidence;
  return { chosen, score };
}

const has = (assignment: Assignment, id: string): boolean =>
  [...assignment.chosen.values()].some(({ target }) => target.id === id);

/** Kinds that need so little that a column or two fit almost any table. */
const easilyFit: ReadonlySet<ListKindName> = new Set([
  "suppliers",
  "lockers",
  "functions",
  "crossings",
]);

/** Whether so few columns are understood that the kind is no more than a guess. */
const isThin = (kind: ListKind, { chosen }: Assignment, width: number): boolean =>
  easilyFit.has(kind.name) && width >= 4 && (chosen.size < 2 || chosen.size * 4 < width);

const missingNeeds = (
  kind: ListKind,
  assignment: Assignment,
  given: ReadonlySet<string>,
): readonly string[] =>
  kind.needs.filter((need) => !need.split("|").some((id) => given.has(id) || has(assignment, id)));

function assignAs(
  kind: ListKind,
  forms: readonly HeaderForms[],
  fixed: ReadonlyMap<number, Target | undefined>,
  given: ReadonlySet<string>,
  plain: PlainLikenesses,
): Assignment {
  const candidates: Candidate[] = [];
  targetsOf(kind).forEach((target, rank) => {
    forms.forEach((form, column) => {
      if (fixed.has(column) || form.whole === "") return;
      const confidence = likeness(form, target, kind, plain);
      if (confidence < leastConfidence) return;
      const exact = target.names.indexOf(form.whole);
      const nameRank = exact === -1 ? target.names.length : exact;
      candidates.push({ column, target, confidence, nameRank, rank });
    });
  });
  const without = new Set<string>();
  const lacking = new Map<string, string>();
  let assignment = assign(candidates, fixed, without);
  // In a list of pairs "part" can only be a number; elsewhere it may as well be the part's name.
  if (kind.pairsParts && !has(assignment, "Part.partNumber")) {
    without.add("Part.description");
    assignment = assign(candidates, fixed, without);
  }
  // What hangs on a missing column cannot be read: how many a model takes, without a model.
  const hangsOn: readonly (readonly [string, string])[] = [
    ["USES", "Model.designation"],
    ...(kind.name === "orders" ? [] : ([["OFFERS", "Supplier.name"]] as const)),
    ["CONSUMES", "Part.partNumber"],
    ["FittedItem", "Model.designation"],
    ["Supplier", "Supplier.name"],
    ["RequiredFunction", "RequiredFunction.name"],
    ...(kind.name === "flat" ? ([["Locker", "StockLot.quantity"]] as const) : []),
  ];
  for (const [owner, id] of hangsOn) {
    if (!has(assignment, id) && !given.has(id)) {
      without.add(owner);
      lacking.set(owner, id);
    }
  }
  if (kind.name === "flat" && without.has("USES")) {
    for (const candidate of [...candidates]) {
      const stock = targets.get("StockLot.quantity");
      if (candidate.target.id === "USES.quantity" && stock) {
        const confidence = candidate.confidence * 0.75;
        candidates.push({ ...candidate, target: stock, confidence });
      }
    }
  }
  if (without.size > 0) assignment = assign(candidates, fixed, without);
  return { ...assignment, orphans: orphansOf(kind, forms, fixed, candidates, assignment, lacking) };
}

/** Below this a likeness is too weak to speak of a column that is not read anyway. */
const plainConfidence = 0.9;

/** Columns that plainly are something which hangs on a missing field; a price is, whatever the kind of list. */
function orphansOf(
  kind: ListKind,
  forms: readonly HeaderForms[],
  fixed: ReadonlyMap<number, Target | undefined>,
  candidates: readonly Candidate[],
  { chosen }: Assignment,
  lacking: ReadonlyMap<string, string>,
): ReadonlyMap<number, string> {
  const orphans = new Map<number, string>();
  const price = targets.get("OFFERS.priceMinor");
  const anyLanguage = new PlainLikenesses(undefined);
  forms.forEach((form, column) => {
    if (chosen.has(column) || fixed.has(column)) return;
    const hanging = candidates.find(
      (candidate) =>
        candidate.column === column &&
        candidate.confidence >= plainConfidence &&
        lacking.has(candidate.target.owner),
    );
    const needs = hanging && lacking.get(hanging.target.owner);
    const isTaken = [...chosen.values()].some(({ target }) => target === price);
    if (needs !== undefined) orphans.set(column, needs);
    else if (
      price !== undefined &&
      !isTaken &&
      likeness(form, price, kind, anyLanguage) >= plainConfidence
    ) {
      orphans.set(column, "Supplier.name");
    }
  });
  return orphans;
}

/**
 * What kind of list a table is and what each column holds, from the names the schema declares. The kind whose
 * columns match best in sum wins, of equals the one with fewer fields; a mapping by hand overrides.
 * Throws `columns-unmatched` if no kind fits, `input-invalid` for a mapping that names nothing.
 */
export function matchColumns(
  table: Pick<Table, "header" | "firstOfName">,
  options: MatchOptions = {},
): Matching {
  const fixed = fixedColumns(table, options.mapping ?? {});
  const forms = table.header.map((header, column) => {
    const repeated = table.firstOfName[column] ?? column;
    return headerForms(repeated === column ? header : (table.header[repeated] ?? header));
  });
  const ignored = table.header.map((header) => isProblemColumn(header));
  ignored.forEach((isIgnored, column) => {
    if (isIgnored) fixed.set(column, undefined);
  });
  const given = new Set(options.supplier === undefined ? [] : ["Supplier.name"]);
  const wanted = options.listKind;
  if (wanted !== undefined && !listKindNames.some((name) => name === wanted)) {
    throw new Problem(
      "input-invalid",
      `The kind of list must be one of ${listKindNames.join(", ")}; received "${wanted}". Choose one, or leave it out to have it found.`,
    );
  }
  const plain = new PlainLikenesses(languageOf(forms));
  const scored = listKindNames
    .filter((name) => wanted === undefined || name === wanted)
    .map((name) => {
      const kind = listKinds[name];
      const assignment = assignAs(kind, forms, fixed, given, plain);
      const outside = [...fixed.values()].filter(
        (target) => target !== undefined && !targetsOf(kind).includes(target),
      ).length;
      const isGuess = wanted === undefined && isThin(kind, assignment, table.header.length);
      return { kind, assignment, missing: missingNeeds(kind, assignment, given), outside, isGuess };
    });
  const fitting = scored
    .filter(({ missing, outside, isGuess }) => missing.length === 0 && outside === 0 && !isGuess)
    .sort(
      (a, b) =>
        b.assignment.score - a.assignment.score ||
        targetsOf(a.kind).length - targetsOf(b.kind).length,
    );
  const best = fitting[0];
  if (best === undefined)
    throw unmatched(
      table.header,
      wanted,
      scored.filter(({ isGuess }) => !isGuess),
    );
  const columns = table.header.map((header, column): ColumnMatch => {
    const candidate = best.assignment.chosen.get(column);
    return {
      column,
      header,
      target: candidate?.target.id,
      confidence: candidate === undefined ? 0 : Math.round(candidate.confidence * 100) / 100,
      byHand: fixed.has(column) && ignored[column] !== true,
      ignored: ignored[column] === true,
    };
  });
  return {
    kind: best.kind.name,
    columns,
    orphans: [...(best.assignment.orphans ?? [])].map(([column, needs]) => ({
      header: table.header[column] ?? "",
      needs,
    })),
    kindScores: fitting.map(({ kind, assignment }) => ({
      kind: kind.name,
      score: assignment.score,
    })),
  };
}

function unmatched(
  header: readonly string[],
  wanted: string | undefined,
  scored: readonly { kind: ListKind; assignment: Assignment; missing: readonly string[] }[],
): Problem {
  const nearest = [...scored].sort(
    (a, b) => a.missing.length - b.missing.length || b.assignment.score - a.assignment.score,
  )[0];
  const lacks = (nearest?.missing ?? [])
    .map((need) => {
      const target = targets.get(need.split("|")[0] ?? need);
      return `${need} (${target?.meaning ?? "?"}; for example "${target?.names[0] ?? need}")`;
    })
    .join(", ");
  const asKind = wanted ?? nearest?.kind.name ?? "flat";
  const shown = header.slice(0, 12).join(", ") + (header.length > 12 ? ", …" : "");
  return new Problem(
    "columns-unmatched",
    `A list must have the columns of its kind; read as "${asKind}" it lacks ${lacks || "columns that fit the mapping"}. The file has: ${shown}. Rename a column, map it by hand, or, if all stands in one column, give the delimiter: comma, semicolon, tab or pipe.`,
    { facts: { header: [...header], listKind: asKind, missing: [...(nearest?.missing ?? [])] } },
  );
}
