import { Problem } from "../../../api/errors/problem.ts";

/** The problem a promise ends with; fails where it ends well or with another error. */
export async function problemOf(promise: Promise<unknown>): Promise<Problem> {
  try {
    await promise;
  } catch (cause) {
    if (cause instanceof Problem) return cause;
    throw cause;
  }
  throw new Error("The call succeeded where a problem was expected");
}
