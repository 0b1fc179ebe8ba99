import type { ProblemCode } from "../../errors/catalogue.ts";
import { Problem } from "../../errors/problem.ts";

/** What a number must be, in words and as a test, and what to do when it is not. */
export interface NumberRule {
  readonly code: ProblemCode;
  /** Completes "<name> must be ...". */
  readonly rule: string;
  readonly holds: (value: number) => boolean;
  readonly remedy: string;
}

/**
 * The value itself when it is finite and follows the rule.
 * Throws the rule's problem, stating rule, value received and remedy.
 */
export function requireNumber(name: string, value: number, rule: NumberRule): number {
  if (Number.isFinite(value) && rule.holds(value)) return value;
  throw new Problem(rule.code, `${name} must be ${rule.rule}; received ${value}. ${rule.remedy}`);
}

/** A rate, mean or exposure: finite, zero or more. */
export const atLeastZero: NumberRule = {
  code: "rate-invalid",
  rule: "a finite number, zero or more",
  holds: (value) => value >= 0,
  remedy: "Correct the figure, or leave it out to use a rarity class.",
};

/** A life, prior shape or prior rate: finite, above zero. */
export const aboveZero: NumberRule = {
  code: "rate-invalid",
  rule: "a finite number above zero",
  holds: (value) => value > 0,
  remedy: "Correct the figure, or leave it out to use a rarity class.",
};

/** A chance in [0, 1]. */
export const chance: NumberRule = {
  code: "rate-invalid",
  rule: "a probability from 0 to 1",
  holds: (value) => value >= 0 && value <= 1,
  remedy: "Give it as a fraction: 0.05 for five in a hundred.",
};

/** A count of pieces, items or services. */
export const wholeCount: NumberRule = {
  code: "input-invalid",
  rule: "a whole number, zero or more",
  holds: (value) => Number.isSafeInteger(value) && value >= 0,
  remedy: "Count whole pieces.",
};
