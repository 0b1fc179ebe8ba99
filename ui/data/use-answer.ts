import { useCallback, useEffect, useRef, useState } from "react";
import type { ProblemDocument } from "../../api/contract/problem.contract.ts";
import { Refusal } from "./ask.ts";
import { lastAnswer, rememberAnswer } from "./last-answers.ts";

/** Sent through the window when every answer on the page may have changed: after an edit, an undo, a return of the program. */
const askAgain = "sparewright-ask-again";

/** Has every answer on the page asked for anew; what stands there stays until the new one comes. */
export const askEverythingAgain = (): void => {
  window.dispatchEvent(new Event(askAgain));
};

/** Calls back whenever that is wanted; returns how to stop listening. */
export const onAskAgain = (again: () => void): (() => void) => {
  window.addEventListener(askAgain, again);
  return () => window.removeEventListener(askAgain, again);
};

/** What is known of an answer: the last one stays on the page while the next is worked out. */
export interface Answer<T> {
  readonly value: T | undefined;
  readonly problem: ProblemDocument | undefined;
  readonly waiting: boolean;
  readonly again: () => void;
  /** Gives the question up; the former answer stays, beside a problem that says so. */
  readonly stop: () => void;
}

const stopped: ProblemDocument = {
  type: "about:blank",
  title: "Stopped",
  status: 0,
  detail: "This was not worked out; what stands here answers the question before.",
  code: "stopped",
};

/** The problem document of whatever was thrown. */
export const problemOf = (error: unknown): ProblemDocument =>
  error instanceof Refusal
    ? error.problem
    : {
        type: "about:blank",
        title: "This page failed",
        status: 0,
        detail: error instanceof Error ? error.message : String(error),
        code: "page-failed",
      };

/**
 * Asks whenever `key` changes; a newer question cancels the older one. The last answer to the same question, if there was one
 * since the page was loaded, stands from the first moment until the new one comes, unless `isRemembered` is false.
 * `key` must name the question among all questions of the program.
 */
export function useAnswer<T>(
  key: string,
  question: (signal: AbortSignal) => Promise<T>,
  isRemembered = true,
): Answer<T> {
  const remembered = (): T | undefined => (isRemembered ? lastAnswer<T>(key) : undefined);
  const [state, setState] = useState<Omit<Answer<T>, "again" | "stop">>(() => ({
    value: remembered(),
    problem: undefined,
    waiting: true,
  }));
  const [turn, setTurn] = useState(0);
  const asking = useRef<AbortController>(undefined);
  const asked = useRef(key);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for the question
  useEffect(() => {
    const stop = new AbortController();
    asking.current = stop;
    const known = remembered();
    // What kept another question from its answer is no problem of this one, whose answer stands.
    const isOther = asked.current !== key && known !== undefined;
    asked.current = key;
    setState((before) => ({
      value: known ?? before.value,
      problem: isOther ? undefined : before.problem,
      waiting: true,
    }));
    question(stop.signal).then(
      (value) => {
        if (stop.signal.aborted) return;
        if (isRemembered) rememberAnswer(key, value);
        setState({ value, problem: undefined, waiting: false });
      },
      (error: unknown) => {
        if (!stop.signal.aborted)
          setState((before) => ({ ...before, problem: problemOf(error), waiting: false }));
      },
    );
    return () => stop.abort();
  }, [key, turn]);
  const again = useCallback(() => setTurn((n) => n + 1), []);
  useEffect(() => onAskAgain(again), [again]);
  const stop = useCallback(() => {
    asking.current?.abort();
    setState((before) => ({ ...before, waiting: false, problem: stopped }));
  }, []);
  return { ...state, again, stop };
}
