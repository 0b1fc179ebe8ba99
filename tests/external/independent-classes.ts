import type { NodeId } from "../../graph-schema/index.ts";
import { mark, type RawGraph, word } from "./independent-graph.ts";

/**
 * The parts that stand for one another on one vessel, by spreading from each part along the statements themselves:
 * confirmed ones always, unproven ones never, others only where neither end is guarded. A part is guarded if
 * confirmed statements and replaced numbers (those the vessel's gear has to do with) lead from it to safety gear: a part marked so, one whose failure stops
 * gear of a safety function, or one a service of such gear takes.
 */
export function independentClasses(
  graph: RawGraph,
  vessel: NodeId,
): (part: NodeId) => readonly NodeId[] {
  const statements = graph.links("INTERCHANGES_WITH");
  const confirmed = statements.filter((l) => word(l, "confidence") === "confirmed");
  const hoped = statements.filter(
    (l) => !["confirmed", "unproven"].includes(word(l, "confidence") ?? ""),
  );
  const isSafety = safetyGearOf(graph, vessel);
  const across = (links: typeof statements, at: NodeId): readonly NodeId[] =>
    links.flatMap(({ from, to }) => (from === at ? [to] : to === at ? [from] : []));
  const concerned = concernedParts(graph, vessel);
  const replaced = graph.links("SUPERSEDED_BY").filter(({ from }) => concerned.has(from));
  const guards = new Map<NodeId, boolean>();
  const isGuarded = (part: NodeId): boolean => {
    const known = guards.get(part);
    if (known !== undefined) return known;
    const reached = new Set([part]);
    for (const at of reached)
      for (const next of [...across(confirmed, at), ...across(replaced, at)]) reached.add(next);
    const found = [...reached].some(isSafety);
    for (const one of reached) guards.set(one, found);
    return found;
  };
  return (part) => {
    const reached = new Set([part]);
    for (const at of reached) {
      for (const next of across(confirmed, at)) reached.add(next);
      for (const next of across(hoped, at))
        if (!isGuarded(at) && !isGuarded(next)) reached.add(next);
    }
    return [...reached].sort();
  };
}

/** What the vessel's gear takes or its services use up, what is said to stand in for that, and what replaced any. */
function concernedParts(graph: RawGraph, vessel: NodeId): ReadonlySet<NodeId> {
  const models = graph
    .to(vessel, "FITTED_ON")
    .flatMap(({ from }) => graph.from(from, "IS_MODEL").map(({ to }) => to));
  const parts = new Set([
    ...models.flatMap((model) => graph.from(model, "USES").map(({ to }) => to)),
    ...models
      .flatMap((model) => graph.to(model, "SERVICE_OF"))
      .flatMap(({ from }) => graph.from(from, "CONSUMES").map(({ to }) => to)),
  ]);
  for (const part of parts) {
    for (const { to } of graph.from(part, "INTERCHANGES_WITH")) parts.add(to);
    for (const { from } of graph.to(part, "INTERCHANGES_WITH")) parts.add(from);
    for (const { to } of graph.from(part, "SUPERSEDED_BY")) parts.add(to);
  }
  return parts;
}

function safetyGearOf(graph: RawGraph, vessel: NodeId): (part: NodeId) => boolean {
  const duties = graph
    .all("RequiredFunction")
    .filter((duty) => word(duty, "tier") === "safety")
    .filter((duty) => graph.from(duty.id, "REQUIRED_ON").some(({ to }) => to === vessel));
  const gear = duties
    .flatMap((duty) => graph.to(duty.id, "SERVES"))
    .filter(({ from }) => graph.from(from, "FITTED_ON").some(({ to }) => to === vessel));
  const models = gear.flatMap(({ from }) => graph.from(from, "IS_MODEL").map(({ to }) => to));
  const stops = models
    .flatMap((model) => graph.from(model, "USES"))
    .filter((line) => (word(line, "failureEffect") ?? "stop") === "stop");
  const served = models
    .flatMap((model) => graph.to(model, "SERVICE_OF"))
    .flatMap(({ from }) => graph.from(from, "CONSUMES"));
  const taken = new Set([...stops, ...served].map(({ to }) => to));
  return (part) => {
    const node = graph.node("Part", part);
    return taken.has(part) || (node !== undefined && mark(node, "isSafety") === true);
  };
}
