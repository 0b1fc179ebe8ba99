import { useCallback, useEffect, useState } from "react";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import type {
  ReadinessAnswer,
  ReadinessRequest,
} from "../../../api/contract/readiness.contract.ts";
import { plural } from "../../components/figures.ts";
import { ask, post } from "../../data/ask.ts";
import { lastAnswer, rememberAnswer } from "../../data/last-answers.ts";
import { onAskAgain, problemOf } from "../../data/use-answer.ts";

/** So many vessels are looked into at once; of a larger fleet so many, one after the other. */
const fewVessels = 12;

/** How ready the fleet is, as far as it has been looked into. */
export interface FleetReadiness {
  readonly value: ReadinessAnswer | undefined;
  readonly problem: ProblemDocument | undefined;
  readonly waiting: boolean;
  /** Vessels that are or will be looked into; fewer than there are in a large fleet. */
  readonly looksInto: number;
  readonly again: () => void;
}

/** Vessels that sail a crossing first, else as they are listed. */
export function vesselsToLookInto({ vessels, crossings }: OverviewAnswer): readonly string[] {
  const sailing = new Set(crossings.flatMap((crossing) => crossing.vessels));
  const sails = ({ id, name }: { id: string; name: string }) =>
    sailing.has(id) || sailing.has(name);
  return [...vessels.filter(sails), ...vessels.filter((vessel) => !sails(vessel))]
    .slice(0, fewVessels)
    .map(({ id }) => id);
}

/** What is known of some vessels so far, and of one more. */
export function joined(before: ReadinessAnswer | undefined, one: ReadinessAnswer): ReadinessAnswer {
  if (before === undefined) return one;
  const vessels = [...before.vessels, ...one.vessels];
  const ready = vessels.filter((vessel) => vessel.ready).length;
  return {
    ...before,
    vessels,
    sentence: `${ready} of the ${plural(vessels.length, "vessel")} looked into ${ready === 1 ? "is" : "are"} provided for the next crossing with what is aboard.`,
    notices: [...before.notices, ...one.notices],
  };
}

/** Asks how ready the vessels are: all in one where they are few, else one after the other, shown as they come. */
export function useFleetReadiness(
  overview: OverviewAnswer | undefined,
  /** What is imagined of the whole fleet, if anything is. */
  whatIf: ReadinessRequest["whatIf"],
): FleetReadiness {
  const isLarge = whatIf === undefined && (overview?.vessels.length ?? 0) > fewVessels;
  const ids = overview === undefined ? [] : vesselsToLookInto(overview);
  const key =
    overview === undefined || ids.length === 0
      ? ""
      : `readiness ${isLarge ? ids : ""} ${JSON.stringify(whatIf ?? null)}`;
  const [state, setState] = useState<Omit<FleetReadiness, "again" | "looksInto">>(() => ({
    value: key === "" ? undefined : lastAnswer(key),
    problem: undefined,
    waiting: true,
  }));
  const [turn, setTurn] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for the vessels
  useEffect(() => {
    if (key === "") return;
    const stop = new AbortController();
    const { signal } = stop;
    setState((before) => ({ ...before, value: lastAnswer(key) ?? before.value, waiting: true }));
    const look = async () => {
      if (whatIf !== undefined) return post<ReadinessAnswer>("/api/readiness", { whatIf }, signal);
      if (!isLarge) return ask<ReadinessAnswer>("/api/readiness", { signal });
      let so: ReadinessAnswer | undefined;
      for (const id of ids) {
        const one = await ask<ReadinessAnswer>(`/api/readiness?vessel=${encodeURIComponent(id)}`, {
          signal,
        });
        so = joined(so, one);
        const value = so;
        // What was known before stays until as much is known anew.
        if (!signal.aborted)
          setState((before) =>
            (before.value?.vessels.length ?? 0) > value.vessels.length
              ? before
              : { ...before, value },
          );
      }
      return so;
    };
    look().then(
      (value) => {
        if (signal.aborted) return;
        rememberAnswer(key, value);
        setState({ value, problem: undefined, waiting: false });
      },
      (error: unknown) => {
        if (!signal.aborted)
          setState((before) => ({ ...before, problem: problemOf(error), waiting: false }));
      },
    );
    return () => stop.abort();
  }, [key, turn]);
  const again = useCallback(() => setTurn((n) => n + 1), []);
  useEffect(() => onAskAgain(again), [again]);
  return { ...state, looksInto: isLarge ? ids.length : (overview?.vessels.length ?? 0), again };
}
