import { Problem } from "../../errors/problem.ts";

/**
 * Returns the least double T such that a log-sufficiency >= T is sufficiency >= `target`, before any rounding.
 *
 * T = ln target, moved up by units in the last place until exp(T) >= target: a kit accepted on its
 * logarithms then also shows a probability that reaches the target. The step is at most a few 1e-16.
 *
 * @param target probability strictly between 0 and 1, else Problem `target-invalid`.
 */
export function logTarget(target: number): number {
  if (!(target > 0 && target < 1)) {
    throw new Problem(
      "target-invalid",
      `A target must lie strictly between 0 and 1; got ${target}. Give a share such as 0.95.`,
    );
  }
  let threshold = Math.log(target);
  // Below about 1e-300 probabilities lose digits and the logarithm alone decides.
  while (target > 1e-300 && Math.exp(threshold) < target) threshold *= 1 - 2 ** -52;
  return threshold;
}
