import { labelOf, type NodeId } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import type { GraphDesk } from "./graph-desk.ts";
import { type Fate, subjectText } from "./import-fates.ts";
import { contentOf, type Numbered, type Subject } from "./record-state.ts";
import { sameContent } from "./same-content.ts";

const namedStandings = 20;

/** One later change that stands on what an undo would take away. */
export interface Standing {
  readonly subject: string;
  readonly because: string;
  readonly at: string;
  readonly who: string;
}

/** The refusal of a write that was taken back before. */
export const undoneBefore = (sequence: number, when: string, importId?: NodeId): Problem =>
  new Problem(
    "undo-blocked",
    `A change can be undone once; this one was undone on ${when}. Undo that undo if you want it back, or repeat the change.`,
    {
      facts: { sequence, undone: when, ...(importId === undefined ? {} : { importId }) },
    },
  );

export const noSuchWrite = (sequence: number): Problem =>
  new Problem(
    "not-found",
    `Only a change in the journal can be undone; there is none by the number ${sequence}. List the changes and choose one.`,
    { facts: { sequence } },
  );

/** The refusal of a write that came to nothing, such as a record made and deleted again. */
export const nothingLeft = (sequence: number): Problem =>
  new Problem(
    "undo-blocked",
    "A change can be undone while something of it is left; of this one nothing is. There is nothing to do.",
    { facts: { sequence } },
  );

export const noSuchImport = (importId: NodeId): Problem =>
  new Problem(
    "not-found",
    `Only an import in the journal can be undone; there is none by the id ${importId}. List the imports and choose one.`,
    { facts: { subject: importId } },
  );

/** Errors: `undo-blocked` where anything stands on the import. */
export function refuseStandings(standings: readonly Standing[]): void {
  if (standings.length === 0) return;
  const first = standings
    .slice(0, 3)
    .map(({ subject, because, at }) => `${subject} ${because} on ${at}`)
    .join("; ");
  const more = standings.length > 3 ? `; and ${standings.length - 3} more` : "";
  throw new Problem(
    "undo-blocked",
    `A change can be undone while nothing later stands on it; since then ${first}${more}. Undo or remove those first.`,
    { facts: { count: standings.length, standing: standings.slice(0, namedStandings) } },
  );
}

type NodeSubject = Subject & { kind: "node" };
type LinkSubject = Subject & { kind: "link" };

const fatesPerReport = 2000;

/**
 * Links go before their ends and come after them; keys are freed before any is given out again.
 * @param progress told how many of the records looked at are done; never falls, ends at the total
 */
export function putBack(
  desk: GraphDesk,
  fates: readonly Fate[],
  progress?: (done: number, total: number) => void,
): void {
  const ofLinks = fates.filter(({ subject }) => subject.kind === "link");
  const ofNodes = fates.filter(({ subject }) => subject.kind === "node");
  const added = ({ before, after }: Fate) => before === undefined && after !== undefined;
  const goneLinks = ofLinks.filter(added);
  const goneNodes = ofNodes.filter(added);
  const total = goneLinks.length + goneNodes.length + fates.length;
  let done = 0;
  const each = (list: readonly Fate[], work: (fate: Fate) => void) => {
    for (const fate of list) {
      naming(fate.subject, () => work(fate));
      if (++done % fatesPerReport === 0) progress?.(done, total);
    }
  };
  each(goneLinks, ({ subject, untouched }) => {
    const link =
      (untouched as Numbered<LinkRecord> | undefined) ?? linkNow(desk, subject as LinkSubject);
    if (link !== undefined) desk.removeLink(link);
  });
  each(goneNodes, ({ subject, untouched }) => {
    const node =
      (untouched as Numbered<NodeRecord> | undefined) ?? desk.node((subject as NodeSubject).id);
    if (node !== undefined) desk.removeNode(node);
  });
  const altered = ofNodes.flatMap((fate) => {
    const { before, after } = fate;
    if (before === undefined || after === undefined) return [];
    if (sameContent(contentOf(before), contentOf(after))) return [];
    const node = desk.node((fate.subject as NodeSubject).id);
    return node === undefined ? [] : [{ fate, node, before }];
  });
  for (const { node, before } of altered) if (before.key !== node.record.key) desk.freeKey(node);
  each(ofNodes, ({ subject, before, after }) => {
    const { id } = subject as NodeSubject;
    if (before !== undefined && after === undefined)
      desk.createNode(labelOf(id), id, { ...before, key: before.key ?? "" });
  });
  for (const { fate, node, before } of altered)
    naming(fate.subject, () => desk.changeNode(node, { ...before, key: before.key ?? "" }));
  each(ofLinks, ({ subject, before, after }) => {
    if (before === undefined) return;
    const { type, from, to } = subject as LinkSubject;
    if (after === undefined) return desk.createLink(type, from, to, before);
    if (sameContent(contentOf(before), contentOf(after))) return;
    const link = linkNow(desk, subject as LinkSubject);
    if (link !== undefined) desk.changeLink(link, before);
  });
  progress?.(total, total);
}

const linkNow = (desk: GraphDesk, { type, from, to }: LinkSubject) => desk.link(type, from, to);

/** Runs `work`, and where the graph refuses it says that the record can no longer be put back. */
function naming(subject: Subject, work: () => void): void {
  try {
    work();
  } catch (cause) {
    if (!(cause instanceof Problem) || cause.kind === "unavailable") throw cause;
    throw new Problem(
      "undo-blocked",
      `What this change did to ${subjectText(subject)} cannot be taken back any more: ${cause.message}`,
      { cause, facts: { standing: [{ subject: subjectText(subject), because: cause.code }] } },
    );
  }
}
