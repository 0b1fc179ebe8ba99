import type { Comparison, WhatIf } from "../../contract/what-if.contract.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { type FittedOn, type ImaginedStore, imaginedStore } from "./imagined-store.ts";

/** One figure of an answer, to be set beside the same figure of another; undefined where it is unknown. */
export interface ComparedFigure {
  readonly figure: string;
  readonly kind: Comparison["figures"][number]["kind"];
  readonly currency?: string;
  readonly value: number | undefined;
}

interface Entry {
  readonly what: string;
  readonly words: string;
}

/** What of a plan's answers is set beside each other. */
export interface Sides<A> {
  readonly figures: (answer: A) => readonly ComparedFigure[];
  /** Pieces by part, where the plan buys any. */
  readonly pieces?: (answer: A) => ReadonlyMap<string, number>;
  /** What the answer lists, in words, by what it is about, where it is a list. */
  readonly entries?: (answer: A) => ReadonlyMap<string, Entry>;
  /** What holds for every change imagined of this answer. */
  readonly notices?: readonly string[];
  readonly sentence: (before: A, after: A) => string;
}

/** The same, for a plan whose first answer says what it is about. */
export interface Beside<A> extends Sides<A> {
  /** The vessel the answer is about, and the day new gear counts as fitted on. */
  readonly scene: (before: A) => {
    readonly vessel: string | undefined;
    readonly fittedOn: FittedOn;
  };
}

/**
 * Asks a plan twice, of the graph as it is and as it is imagined, and returns the second answer with both sides' figures.
 * Nothing is written. Errors: those of the plan and of `imaginedStore`.
 */
export async function besideBefore<A extends object>(
  store: GraphStore,
  whatIf: WhatIf,
  ask: (store: GraphStore) => Promise<A>,
  beside: Beside<A>,
): Promise<A & { comparison: Comparison }> {
  const before = await ask(store);
  const { vessel, fittedOn } = beside.scene(before);
  const imagined = await imaginedStore(store, whatIf, vessel, fittedOn);
  const after = await ask(imagined.store);
  return { ...after, comparison: sideBySide(before, after, imagined, beside) };
}

/** Both answers' figures, side by side; without an answer before, all figures before are unknown. */
export function sideBySide<A>(
  before: A | undefined,
  after: A,
  imagined: ImaginedStore,
  sides: Sides<A>,
): Comparison {
  const none = new Map<string, never>();
  const was = before === undefined ? [] : sides.figures(before);
  const is = sides.figures(after);
  const there = new Map(is.map((one) => [one.figure, one]));
  const rows = before === undefined ? is.map((one) => ({ ...one, value: undefined })) : was;
  const figures = rows.map(({ figure, kind, currency, value }) => {
    const later = there.get(figure)?.value;
    return {
      figure,
      kind,
      ...(currency === undefined ? {} : { currency }),
      before: value ?? null,
      after: later ?? null,
      difference: value === undefined || later === undefined ? null : later - value,
    };
  });
  const { pieces, entries } = sides;
  return {
    changes: imagined.changes.length === 0 ? ["Nothing is changed."] : [...imagined.changes],
    sentence:
      before === undefined
        ? "What is asked about exists only once it is imagined, so there is no answer before."
        : sides.sentence(before, after),
    figures,
    parts:
      pieces === undefined
        ? []
        : pieceRows(before === undefined ? none : pieces(before), pieces(after)),
    ...(entries === undefined
      ? {}
      : { listed: entryRows(before === undefined ? none : entries(before), entries(after)) }),
    notices: [...imagined.notices, ...(sides.notices ?? [])],
  };
}

function entryRows(
  before: ReadonlyMap<string, Entry>,
  after: ReadonlyMap<string, Entry>,
): NonNullable<Comparison["listed"]> {
  return [...new Set([...before.keys(), ...after.keys()])]
    .map((key) => {
      const was = before.get(key);
      const is = after.get(key);
      const what = is?.what ?? was?.what ?? key;
      return { what, before: was?.words ?? null, after: is?.words ?? null };
    })
    .filter((row) => row.before !== row.after);
}

function pieceRows(
  before: ReadonlyMap<string, number>,
  after: ReadonlyMap<string, number>,
): Comparison["parts"] {
  return [...new Set([...before.keys(), ...after.keys()])]
    .map((part) => {
      const was = before.get(part) ?? 0;
      const is = after.get(part) ?? 0;
      return { part, before: was, after: is, difference: is - was };
    })
    .filter(({ difference }) => difference !== 0)
    .sort((a, b) => Math.abs(b.difference) - Math.abs(a.difference) || (a.part < b.part ? -1 : 1));
}
