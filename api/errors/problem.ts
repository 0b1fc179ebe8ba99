import { type ProblemCode, type ProblemKind, problemCatalogue } from "./catalogue.ts";

/** One fault within a larger input: where it is (JSON pointer, or line and column) and what is wrong. */
export interface ProblemPlace {
  readonly pointer: string;
  readonly detail: string;
}

/** The one error type of the program: a code of the catalogue, and a sentence with rule, value and remedy. */
export class Problem extends Error {
  readonly code: ProblemCode;
  readonly kind: ProblemKind;
  readonly places: readonly ProblemPlace[];
  /** Extra members shown to the caller (the two versions of a stale write, say). */
  readonly facts: Readonly<Record<string, unknown>>;

  constructor(
    code: ProblemCode,
    detail: string,
    more: {
      places?: readonly ProblemPlace[];
      facts?: Readonly<Record<string, unknown>>;
      cause?: unknown;
    } = {},
  ) {
    super(detail, more.cause === undefined ? undefined : { cause: more.cause });
    this.name = "Problem";
    this.code = code;
    this.kind = problemCatalogue[code].kind;
    this.places = more.places ?? [];
    this.facts = more.facts ?? {};
  }
}
