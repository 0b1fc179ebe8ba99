import type { ReactNode } from "react";
import { Button } from "react-aria-components";
import type { ProblemDocument } from "../../api/contract/problem.contract.ts";
import { Elapsed, StopButton } from "./elapsed.tsx";

/** An error beside its cause: what the rule is, what was received, what to do. */
export function ProblemNote({
  problem,
  again,
}: {
  readonly problem: ProblemDocument;
  readonly again?: () => void;
}) {
  return (
    <div className="problem" role="alert">
      <p>
        <strong>{problem.title}.</strong> {problem.detail}
      </p>
      {problem.errors !== undefined && problem.errors.length > 0 && (
        <ul>
          {problem.errors.map((error) => (
            <li key={error.pointer + error.detail}>
              {error.pointer === "" ? "" : `${error.pointer}: `}
              {error.detail}
            </li>
          ))}
        </ul>
      )}
      {again !== undefined && (
        <Button className="quiet" onPress={again}>
          Try again
        </Button>
      )}
    </div>
  );
}

/** What the reader must know about how an answer was reached. */
export function Notices({
  notices,
}: {
  readonly notices: readonly { readonly code: string; readonly text: string }[];
}) {
  if (notices.length === 0) return null;
  return (
    <ul className="notices" aria-label="How this answer was reached">
      {notices.map((notice) => (
        <li key={notice.code + notice.text}>{notice.text}</li>
      ))}
    </ul>
  );
}

/** The answer in one sentence, announced when it changes. */
export function Answered({
  sentence,
  waiting,
  stop,
  most,
  children,
}: {
  readonly sentence: string;
  readonly waiting: boolean;
  /** Gives the question up; offered once it takes over a second. */
  readonly stop?: () => void;
  /** Seconds after which the program answers with what it has. */
  readonly most?: number;
  readonly children?: ReactNode;
}) {
  return (
    <div className="answered" aria-busy={waiting}>
      <p className="sentence" aria-live="polite">
        {sentence}
      </p>
      <span className="working" data-on={waiting || undefined} aria-hidden={!waiting}>
        {waiting && (
          <>
            Working it out… <Elapsed {...(most === undefined ? {} : { most })} />
          </>
        )}
      </span>
      {waiting && stop !== undefined && <StopButton stop={stop} />}
      {children}
    </div>
  );
}
