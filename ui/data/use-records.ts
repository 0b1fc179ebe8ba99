import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { ProblemDocument } from "../../api/contract/problem.contract.ts";
import type { RecordDocument } from "../../api/contract/records.contract.ts";
import { lastAnswer, rememberAnswer } from "./last-answers.ts";
import { listRecords, type RecordsQuestion } from "./records-client.ts";
import { onAskAgain, problemOf } from "./use-answer.ts";

const pageSize = 500;

/** Records of a label, as many as have been fetched: the others stand as empty places until they come into sight. */
export interface Records {
  readonly rows: readonly RecordDocument[];
  readonly total: number;
  readonly isWaiting: boolean;
  readonly problem: ProblemDocument | undefined;
  /** Told which rows are in sight; fetches the pages they are on. */
  readonly onWindow: (first: number, end: number) => void;
  readonly again: () => void;
}

const emptyPlace = (index: number): RecordDocument => ({
  id: `place ${index}`,
  label: "",
  name: "…",
  title: "…",
  version: 0,
  properties: {},
  extra: {},
  owners: [],
});

interface Fetched {
  readonly key: string;
  readonly total: number;
  readonly pages: ReadonlyMap<number, readonly RecordDocument[]>;
}

const nothing: Fetched = { key: "", total: 0, pages: new Map() };

/**
 * Fetches records page by page as they come into sight; `isWhole` fetches every page at once, for lists that stay short. What
 * was fetched before stands until it is fetched anew.
 */
export function useRecords(
  question: Omit<RecordsQuestion, "offset" | "limit">,
  isWhole = false,
): Records {
  const key = JSON.stringify(question);
  const remembered = () => lastAnswer<Fetched>(`records ${key}`);
  const [fetched, setFetched] = useState<Fetched>(() => remembered() ?? nothing);
  const [problem, setProblem] = useState<ProblemDocument>();
  const [isWaiting, setWaiting] = useState(true);
  const [turn, setTurn] = useState(0);
  const asked = useRef(new Set<number>());
  const inSight = useRef({ first: 0, end: 0 });
  const stop = useRef(new AbortController());

  const fetchPage = useCallback(
    async (page: number): Promise<number> => {
      if (asked.current.has(page)) return 0;
      asked.current.add(page);
      const { signal } = stop.current;
      try {
        const answer = await listRecords(
          { ...(JSON.parse(key) as RecordsQuestion), offset: page * pageSize, limit: pageSize },
          signal,
        );
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
    if (fetched.key !== "") rememberAnswer(`records ${fetched.key}`, fetched);
  }, [fetched]);
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
