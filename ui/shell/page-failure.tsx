import { Component, type ReactNode } from "react";
import { ProblemNote } from "../components/notice.tsx";
import { problemOf } from "../data/use-answer.ts";

interface State {
  readonly error: unknown;
  readonly failed: boolean;
}

/** Keeps one page's failure from taking the others with it, and says what to do. */
export class PageFailure extends Component<
  { readonly children: ReactNode; readonly onAgain: () => void },
  State
> {
  override state: State = { error: undefined, failed: false };

  static getDerivedStateFromError(error: unknown): State {
    return { error, failed: true };
  }

  override render(): ReactNode {
    if (!this.state.failed) return this.props.children;
    const problem = problemOf(this.state.error);
    return (
      <ProblemNote
        problem={{
          ...problem,
          title: "This page could not be shown",
          detail: `${problem.detail} Try again; if it stays, reload the page. Nothing you entered elsewhere is lost.`,
        }}
        again={() => {
          this.props.onAgain();
          this.setState({ error: undefined, failed: false });
        }}
      />
    );
  }
}
