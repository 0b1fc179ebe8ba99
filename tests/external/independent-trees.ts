import type { NodeId } from "../../graph-schema/index.ts";
import type { Masses } from "./independent-chance.ts";
import type { RawGraph } from "./independent-graph.ts";

/** Per class (named by its parts), the class that supersedes it, read off the records; one successor each. */
export function successorOf(
  graph: RawGraph,
  classOf: (part: NodeId) => readonly NodeId[],
): (parts: readonly NodeId[]) => readonly NodeId[] | undefined {
  return (parts) => {
    const found = new Map(
      parts
        .flatMap((part) => graph.from(part, "SUPERSEDED_BY"))
        .map(({ to }) => classOf(to))
        .filter((next) => next.join() !== parts.join())
        .map((next) => [next.join(), next]),
    );
    if (found.size > 1) throw new Error("This recomputation takes a part to have one successor.");
    return [...found.values()][0];
  };
}

interface TreeMember {
  readonly masses: Masses;
  /** Place of its successor in the list; -1 none. */
  readonly newer: number;
}

/**
 * Chance that all demands of a supersession tree are met: every combination of demands, each tried against every set
 * of members that holds the successors of its members (P. Hall, 1935): such a set may not be asked for more than it has.
 */
export function chanceOfTree(members: readonly TreeMember[], pieces: readonly number[]): number {
  const sets = Array.from({ length: 2 ** members.length - 1 }, (_, s) =>
    members.map((_m, v) => ((s + 1) & (1 << v)) !== 0),
  ).filter((set) => members.every(({ newer }, v) => !set[v] || newer < 0 || set[newer] === true));
  let met = 0;
  const visit = (asked: readonly number[], chance: number): void => {
    const member = members[asked.length];
    if (member !== undefined) {
      member.masses.forEach((p, d) => {
        if (p > 0) visit([...asked, d], chance * p);
      });
      return;
    }
    const isMet = sets.every((set) => {
      let over = 0;
      set.forEach((has, v) => {
        if (has) over += (asked[v] ?? 0) - (pieces[v] ?? 0);
      });
      return over <= 0;
    });
    if (isMet) met += chance;
  };
  visit([], 1);
  return met;
}
