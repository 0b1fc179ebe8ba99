import type { Comparison, WhatIf } from "../../contract/what-if.contract.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { type FittedOn, imaginedStore } from "./imagined-store.ts";

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

/** How a plan's answers are set beside each other. */
export interface Beside<A> {
  /** The vessel the answer is about, and the day new gear counts as fitted on. */
  readonly scene: (before: A) => {
    readonly vessel: string | undefined;
    readonly fittedOn: FittedOn;
  };
  readonly figures: (answer: A) => readonly ComparedFigure[];
  /** Pieces by part, where the plan buys any. */
  readonly pieces?: (answer: A) => ReadonlyMap<string, number>;
  /** What the answer lists, in words, by what it is about, where it is a list. */
  readonly entries?: (answer: A) => ReadonlyMap<string, Entry>;
  /** What holds for every change imagined of this answer. */
  readonly notices?: readonly string[];
  readonly sentence: (before: A, after: A) => string;
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
  const there = new Map(beside.figures(after).map((one) => [one.figure, one]));
  const figures = beside.figures(before).map(({ figure, kind, currency, value }) => {
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
  return {
    ...after,
    comparison: {
      changes: imagined.changes.length === 0 ? ["Nothing is changed."] : [...imagined.changes],
      sentence: beside.sentence(before, after),
      figures,
      parts:
        beside.pieces === undefined ? [] : pieceRows(beside.pieces(before), beside.pieces(after)),
      ...(beside.entries === undefined
        ? {}
        : { listed: entryRows(beside.entries(before), beside.entries(after)) }),
      notices: [...imagined.notices, ...(beside.notices ?? [])],
    },
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
