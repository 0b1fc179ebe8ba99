import type { ProblemCode } from "../errors/catalogue.ts";

/** What can be wrong with the question of any plan about a kit: its vessel, crossing, targets, money and what is imagined. */
export const kitProblems: readonly ProblemCode[] = [
  "not-found",
  "target-invalid",
  "crossing-invalid",
  "rate-invalid",
  "currency-mixed",
  "key-taken",
  "columns-unmatched",
  "file-empty",
];
