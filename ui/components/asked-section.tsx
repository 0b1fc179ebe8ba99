import type { ReactNode } from "react";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { ProblemDocument } from "../../api/contract/problem.contract.ts";
import { post } from "../data/ask.ts";
import { useAnswer } from "../data/use-answer.ts";
import { Elapsed } from "./elapsed.tsx";
import { ProblemNote } from "./notice.tsx";

/**
 * A section whose answer takes some time and is worked out only when asked for by a press. It can be stopped, by its button or by
 * leaving; when the question changes, its answer goes and may be asked for again. On paper only once there is an answer.
 */
export function AskedSection<T>({
  id,
  title,
  lead,
  deed,
  working,
  path,
  request,
  inputs,
  tools,
  refusal,
  children,
}: {
  readonly id: string;
  readonly title: string;
  /** What the section would say, before it is asked. */
  readonly lead: string;
  readonly deed: string;
  readonly working: string;
  readonly path: string;
  readonly request: unknown;
  /** What the question can be changed by, above the button. */
  readonly inputs?: ReactNode;
  /** What can be done with an answer, beside the heading. */
  readonly tools?: ReactNode;
  /** Says a refusal in other words than the problem's own. */
  readonly refusal?: (problem: ProblemDocument, again: () => void) => ReactNode;
  readonly children: (answer: T) => ReactNode;
}) {
  const question = JSON.stringify(request);
  const [asked, setAsked] = useState<string>();
  const isAsked = asked === question;
  const answer = useAnswer<T | undefined>(isAsked ? `${path} ${question}` : path, (signal) =>
    isAsked ? post<T>(path, request, signal) : Promise.resolve(undefined),
  );
  const value = isAsked ? answer.value : undefined;
  return (
    <section
      aria-labelledby={`${id}-title`}
      aria-busy={isAsked && answer.waiting}
      className={value === undefined ? "asked screen-only" : "asked"}
    >
      <div className="heading-line">
        <h2 id={`${id}-title`}>{title}</h2>
        {value !== undefined && tools}
      </div>
      {inputs}
      {isAsked &&
        answer.problem !== undefined &&
        (refusal?.(answer.problem, answer.again) ?? (
          <ProblemNote problem={answer.problem} again={answer.again} />
        ))}
      {value !== undefined ? (
        children(value)
      ) : isAsked && answer.waiting ? (
        <p className="loading" role="status">
          {working} <Elapsed />
          <Button className="quiet" onPress={() => setAsked(undefined)}>
            Stop
          </Button>
        </p>
      ) : (
        <>
          <p className="said">{lead}</p>
          <p>
            <Button className="quiet" onPress={() => setAsked(question)}>
              {deed}
            </Button>
          </p>
        </>
      )}
    </section>
  );
}
