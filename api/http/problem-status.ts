import { type ProblemCode, problemCatalogue } from "../errors/catalogue.ts";

const byKind = {
  invalid: 400,
  "not-found": 404,
  conflict: 409,
  unavailable: 503,
  bug: 500,
} as const;

const exceptions: Partial<Record<ProblemCode, number>> = {
  "access-refused": 403,
  "method-refused": 405,
  "file-too-large": 413,
  "media-type-refused": 415,
};

/** The HTTP status of a problem: by its kind, save the few codes HTTP has a closer word for (RFC 9110). */
export const problemStatus = (code: ProblemCode): number =>
  exceptions[code] ?? byKind[problemCatalogue[code].kind];
