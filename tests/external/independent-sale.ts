import highsModule, { type Highs } from "highs";
import type { NodeId } from "../../graph-schema/index.ts";
import { figure, type RawGraph, word } from "./independent-graph.ts";

/** What is inside a service kit, boxes in it opened unless gear asks for them whole; read off the records. */
export function insideKit(
  graph: RawGraph,
  kit: NodeId,
  isAsked: (part: NodeId) => boolean,
): ReadonlyMap<NodeId, number> {
  const found = new Map<NodeId, number>();
  for (const { to, ...link } of graph.from(kit, "CONTAINS")) {
    const count = figure(link, "quantity") ?? 1;
    const deeper = graph.from(to, "CONTAINS");
    const pieces =
      deeper.length > 0 && !isAsked(to) ? insideKit(graph, to, isAsked) : new Map([[to, 1]]);
    for (const [part, each] of pieces) found.set(part, (found.get(part) ?? 0) + each * count);
  }
  return found;
}

/** Every service kit that holds one of the parts, however deep. */
export function kitsHolding(graph: RawGraph, parts: Iterable<NodeId>): ReadonlySet<NodeId> {
  const found = new Set<NodeId>();
  const open = [...parts];
  for (let part = open.pop(); part !== undefined; part = open.pop()) {
    for (const { from } of graph.to(part, "CONTAINS")) {
      if (found.has(from)) continue;
      found.add(from);
      open.push(from);
    }
  }
  return found;
}

/** One class (or tree) to be stocked: ln chance by count, from the least that any kit must hold. */
export interface SoldLine {
  readonly tier: number;
  /** ln chance with `must`, must + 1, ... pieces. */
  readonly logs: readonly number[];
  /** No kit reaches its tier's target with fewer. */
  readonly must: number;
  readonly has: number;
  /** For a tree: cost of each step, taken in order; pieces are steps. */
  readonly stepCost?: ArrayLike<number>;
}

/** Something for sale, or to be opened: how many of it, at what price, giving what to which line. */
export interface SoldThing {
  readonly cost: number;
  readonly gives: ReadonlyMap<number, number>;
  readonly least: number;
  readonly most: number;
}

/** The offers of some parts in one currency: whole packs, least orders rounded up to packs. */
export function thingsFor(
  graph: RawGraph,
  part: NodeId,
  currency: string,
  gives: ReadonlyMap<number, number>,
): readonly SoldThing[] {
  return graph.to(part, "OFFERS").flatMap((offer): SoldThing[] => {
    const cost = figure(offer, "priceMinor") ?? 0;
    if (word(offer, "currency") !== currency || !(cost > 0)) return [];
    const pack = figure(offer, "packSize") ?? 1;
    const least = Math.ceil((figure(offer, "minimumOrder") ?? 1) / pack);
    const all = new Map([...gives].map(([line, pieces]) => [line, pieces * pack]));
    return [{ cost, gives: all, least: Math.max(1, least), most: 60 }];
  });
}

// The package's one declaration file is read as CommonJS, its ES build exports the loader itself.
const loadHighs = highsModule as unknown as () => Promise<Highs>;

/**
 * The least cost by HiGHS on the plain model, one binary per further piece of a line, all tiers together.
 * Costs are whole cents, so a gap below one cent is a proof.
 */
export async function leastSale(
  lines: readonly SoldLine[],
  things: readonly SoldThing[],
  targets: readonly number[],
): Promise<{ readonly cost: number; readonly bound: number; readonly isOptimal: boolean }> {
  const highs = await loadHighs();
  const objective: string[] = [];
  const rows: string[] = [];
  const general: string[] = [];
  const binary: string[] = [];
  const bounds: string[] = [];
  const gain = targets.map((): string[] => []);
  const need = targets.map((target) => Math.log(target));
  const scale = 1000;
  let fixed = 0;
  things.forEach((thing, u) => {
    objective.push(`${thing.cost} y${u}`);
    general.push(`y${u}`);
    bounds.push(`0 <= y${u} <= ${thing.most}`);
    if (thing.least > 1) {
      binary.push(`z${u}`);
      objective.push(`0 z${u}`);
      rows.push(`y${u} - ${thing.least} z${u} >= 0`, `y${u} - ${thing.most} z${u} <= 0`);
    }
  });
  lines.forEach((line, p) => {
    const { logs, stepCost } = line;
    fixed += stepCost?.[0] ?? 0;
    need[line.tier] = (need[line.tier] ?? 0) - (logs[0] ?? 0);
    const steps = logs.slice(1).map((log, at) => log - (logs[at] ?? 0));
    const isPlain =
      stepCost === undefined && steps.every((s, at) => at === 0 || s <= (steps[at - 1] ?? 0));
    steps.forEach((step, at) => {
      const cost = stepCost === undefined ? 0 : (stepCost[at + 1] ?? 0) - (stepCost[at] ?? 0);
      objective.push(`${cost} b${p}_${at}`);
      binary.push(`b${p}_${at}`);
      gain[line.tier]?.push(`${(step * scale).toFixed(12)} b${p}_${at}`);
      if (!isPlain && at > 0) rows.push(`b${p}_${at} - b${p}_${at - 1} <= 0`);
    });
    if (stepCost !== undefined) return;
    const given = things.flatMap((thing, u) => {
      const pieces = thing.gives.get(p) ?? 0;
      return pieces === 0 ? [] : [`${pieces > 0 ? "-" : "+"} ${Math.abs(pieces)} y${u}`];
    });
    const held = steps.map((_, at) => `+ b${p}_${at}`);
    if (held.length + given.length > 0)
      rows.push(`${[...held, ...given].join("\n ")} <= ${line.has - line.must}`);
  });
  targets.forEach((_, t) => {
    if ((gain[t]?.length ?? 0) > 0)
      rows.push(`${gain[t]?.join("\n + ")} >= ${((need[t] ?? 0) * scale).toFixed(12)}`);
  });
  const text = [
    `Minimize\n cost: ${objective.join("\n + ")}`,
    `Subject To\n${rows.map((row, r) => ` r${r}: ${row}`).join("\n")}`,
    `Bounds\n${bounds.join("\n")}`,
    `General\n${general.join("\n")}`,
    `Binary\n${binary.join("\n")}`,
    "End",
  ].join("\n");
  return highs.withModel({ format: "lp", data: text }, (model) => {
    model.options.set({ output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0.99, time_limit: 60 });
    model.run();
    return {
      cost: fixed + Math.round(model.info.get("objective_function_value") as number),
      bound: fixed + (model.info.get("mip_dual_bound") as number),
      isOptimal: model.getModelStatus() === highs.constants.modelStatus.optimal,
    };
  });
}
