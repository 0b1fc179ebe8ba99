import type { ListKind } from "../list-kinds.ts";
import { type Target, targets } from "../targets.ts";
import { FieldLikenesses } from "./field-likenesses.ts";
import { gearWords } from "./gear-words.ts";
import type { HeaderForms } from "./header-likeness.ts";

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

/** The fields a kind of list may hold. */
export const targetsOf = (kind: ListKind): readonly Target[] =>
  kind.holds.flatMap((held) =>
    held.includes(".")
      ? [targets.get(held)].filter((target) => target !== undefined)
      : [...targets.values()].filter(
          ({ owner, onlyIn }) =>
            owner === held && (onlyIn === undefined || onlyIn.includes(kind.name)),
        ),
  );

export interface Assignment {
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

export const has = (assignment: Assignment, id: string): boolean =>
  [...assignment.chosen.values()].some(({ target }) => target.id === id);

/** The columns of a table as a kind of list holds them: surest first, less what hangs on a missing column. */
export function assignColumns(
  kind: ListKind,
  forms: readonly HeaderForms[],
  fixed: ReadonlyMap<number, Target | undefined>,
  given: ReadonlySet<string>,
  likenesses: FieldLikenesses,
): Assignment {
  const candidates: Candidate[] = [];
  targetsOf(kind).forEach((target, rank) => {
    forms.forEach((form, column) => {
      if (fixed.has(column) || form.whole === "") return;
      const confidence = likenesses.in(kind, form, target);
      if (confidence < leastConfidence) return;
      const exact = target.names.indexOf(form.whole);
      const nameRank = exact === -1 ? target.names.length : exact;
      candidates.push({ column, target, confidence, nameRank, rank });
    });
  });
  const plain = settle(kind, candidates, fixed, given);
  const { assignment, lacking } =
    withGearAsModel(kind, forms, candidates, fixed, given, plain) ?? plain;
  return { ...assignment, orphans: orphansOf(kind, forms, fixed, candidates, assignment, lacking) };
}

interface Settled {
  readonly assignment: Assignment;
  /** What a missing field leaves unread, with that field's id. */
  readonly lacking: ReadonlyMap<string, string>;
}

/** How sure it is that a column that names gear names its model. */
const gearConfidence = 0.75;

/**
 * Takes a column that names gear ("Engine") for its model where no column does, if more of the list is understood so or
 * nothing without it; undefined otherwise.
 */
function withGearAsModel(
  kind: ListKind,
  forms: readonly HeaderForms[],
  candidates: readonly Candidate[],
  fixed: ReadonlyMap<number, Target | undefined>,
  given: ReadonlySet<string>,
  plain: Settled,
): Settled | undefined {
  const model = targets.get("Model.designation");
  if (model === undefined || kind.gearMayBeModel !== true) return undefined;
  if (![...plain.lacking.values()].includes(model.id)) return undefined;
  const column = forms.findIndex(
    ({ whole, base }, at) => !fixed.has(at) && (gearWords.has(whole) || gearWords.has(base)),
  );
  if (column === -1) return undefined;
  const others = candidates.filter((candidate) => candidate.column !== column);
  const asModel = { column, target: model, confidence: gearConfidence, nameRank: 0, rank: 0 };
  const settled = settle(kind, [...others, asModel], fixed, given);
  const isBetter = settled.assignment.score > plain.assignment.score;
  return isBetter || kind.needs.includes(model.id) ? settled : undefined;
}

function settle(
  kind: ListKind,
  wanted: readonly Candidate[],
  fixed: ReadonlyMap<number, Target | undefined>,
  given: ReadonlySet<string>,
): Settled {
  let candidates = wanted;
  const without = new Set<string>();
  const lacking = new Map<string, string>();
  let assignment = assign(candidates, fixed, without);
  // "Part" may be a part's name; where no other column holds its number, it is the number.
  if (kind.needs.includes("Part.partNumber") && !has(assignment, "Part.partNumber")) {
    const numbers = new Set(
      candidates.flatMap(({ column, target }) => (target.id === "Part.partNumber" ? [column] : [])),
    );
    candidates = candidates.filter(
      ({ column, target }) => target.id !== "Part.description" || !numbers.has(column),
    );
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
  const stock = targets.get("StockLot.quantity");
  if (kind.name === "flat" && without.has("USES") && stock !== undefined) {
    candidates = candidates.flatMap((candidate) =>
      candidate.target.id === "USES.quantity"
        ? [candidate, { ...candidate, target: stock, confidence: candidate.confidence * 0.75 }]
        : [candidate],
    );
  }
  if (without.size > 0) assignment = assign(candidates, fixed, without);
  return { assignment, lacking };
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
  const anyLanguage = new FieldLikenesses(undefined);
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
      anyLanguage.in(kind, form, price) >= plainConfidence
    ) {
      orphans.set(column, "Supplier.name");
    }
  });
  return orphans;
}
