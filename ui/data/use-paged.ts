import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { ProblemDocument } from "../../api/contract/problem.contract.ts";
import { lastAnswer, rememberAnswer } from "./last-answers.ts";
import { onAskAgain, problemOf } from "./use-answer.ts";

const pageSize = 500;

/** A long list of which as much is here as has been fetched: the rest stands as empty places until it comes into sight. */
export interface Paged<Row> {
  readonly rows: readonly Row[];
  readonly total: number;
  readonly isWaiting: boolean;
  readonly problem: ProblemDocument | undefined;
  /** Told which rows are in sight; fetches the pages they are on. */
  readonly onWindow: (first: number, end: number) => void;
  readonly again: () => void;
}

interface Fetched<Row> {
  readonly key: string;
  readonly total: number;
  readonly pages: ReadonlyMap<number, readonly Row[]>;
}

/** How a list is asked for: a page of it, and what stands where a row has not come yet. */
export interface PagedQuestion<Row> {
  /** Names the question among all questions of the program; another key is another list. */
  readonly key: string;
  readonly page: (
    offset: number,
    limit: number,
    signal: AbortSignal,
  ) => Promise<{ readonly total: number; readonly rows: readonly Row[] }>;
  readonly emptyPlace: (index: number) => Row;
  /** Fetches every page at once: for lists that stay short. */
  readonly isWhole?: boolean;
}

/** Fetches a list page by page as it comes into sight. What was fetched before stands until it is fetched anew. */
export function usePaged<Row>(question: PagedQuestion<Row>): Paged<Row> {
  const { key, emptyPlace, isWhole = false } = question;
  const remembered = () => lastAnswer<Fetched<Row>>(key);
  const [fetched, setFetched] = useState<Fetched<Row>>(
    () => remembered() ?? { key: "", total: 0, pages: new Map() },
  );
  const [problem, setProblem] = useState<ProblemDocument>();
  const [isWaiting, setWaiting] = useState(true);
  const [turn, setTurn] = useState(0);
  const asked = useRef(new Set<number>());
  const inSight = useRef({ first: 0, end: 0 });
  const stop = useRef(new AbortController());
  const ask = useRef(question.page);
  ask.current = question.page;

  const fetchPage = useCallback(
    async (page: number): Promise<number> => {
      if (asked.current.has(page)) return 0;
      asked.current.add(page);
      const { signal } = stop.current;
      try {
        const answer = await ask.current(page * pageSize, pageSize, signal);
        if (signal.aborted) return 0;
        setFetched((before) => ({
          key,
          total: answer.total,
          pages: new Map([...(before.key === key ? before.pages : []), [page, answer.rows]]),
        }));
        setProblem(undefined);
        return answer.total;
      } catch (error) {
        if (signal.aborted) return 0;
        asked.current.delete(page);
        setProblem(problemOf(error));
        return 0;
      }
    },
    [key],
  );

  const onWindow = useCallback(
    (first: number, end: number) => {
      inSight.current = { first, end };
      for (let page = Math.floor(first / pageSize); page * pageSize < end; page++)
        void fetchPage(page);
    },
    [fetchPage],
  );

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new turn asks the same question again
  useEffect(() => {
    stop.current.abort();
    stop.current = new AbortController();
    asked.current = new Set();
    setWaiting(true);
    setFetched((before) => (before.key === key ? before : (remembered() ?? before)));
    void fetchPage(0).then(async (total) => {
      if (isWhole) for (let page = 1; page * pageSize < total; page++) await fetchPage(page);
      else onWindow(inSight.current.first, Math.min(inSight.current.end, total));
      setWaiting(false);
    });
    return () => stop.current.abort();
  }, [fetchPage, onWindow, isWhole, turn]);
  const again = useCallback(() => setTurn((n) => n + 1), []);
  useEffect(() => onAskAgain(again), [again]);

  useEffect(() => {
    if (fetched.key !== "") rememberAnswer(fetched.key, fetched);
  }, [fetched]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: empty places are alike for one list
  const rows = useMemo(
    () =>
      Array.from(
        { length: fetched.total },
        (_, index) =>
          fetched.pages.get(Math.floor(index / pageSize))?.[index % pageSize] ?? emptyPlace(index),
      ),
    [fetched],
  );
  return { rows, total: fetched.total, isWaiting, problem, onWindow, again };
}
