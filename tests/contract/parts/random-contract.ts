import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Problem } from "../../../api/errors/problem.ts";
import type { GraphStore } from "../../../api/store/graph-store.ts";
import { type NodeId, nodeLabelNames, relationshipTypeNames } from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord, ProposedChange } from "../../../importers/change-set.ts";
import { PlainGraph, type Refusal, type Written } from "../plain-graph.ts";
import { concrete, type Step, steps } from "../random-operations.ts";
import { importOccasion, occasion } from "../small-fleet.ts";
import type { StoreFactory } from "../store-contract.ts";

async function refusalOf(work: () => Promise<unknown>): Promise<string | undefined> {
  try {
    await work();
    return undefined;
  } catch (cause) {
    if (cause instanceof Problem) return cause.code;
    throw cause;
  }
}

async function everything(store: GraphStore): Promise<readonly (NodeRecord | LinkRecord)[]> {
  const known = await store.knownGraph();
  return [
    ...nodeLabelNames
      .filter((label) => label !== "Import")
      .flatMap((label) => [...known.nodes(label).values()]),
    ...relationshipTypeNames.flatMap((type) => [...known.links(type).values()]),
  ];
}
const named = (things: Iterable<NodeRecord | LinkRecord>) =>
  new Map(
    [...things].map((thing) => [
      "type" in thing ? `${thing.type} ${thing.from}>${thing.to}` : thing.id,
      thing,
    ]),
  );

async function follow(store: GraphStore, script: readonly Step[]): Promise<void> {
  let graph = new PlainGraph();
  const imports: {
    readonly id: NodeId;
    readonly sequence: number;
    readonly written: Written;
    undone: boolean;
  }[] = [];
  for (const step of script) {
    if (step.kind === "undo") {
      const chosen = imports[step.which % imports.length];
      if (chosen === undefined) continue;
      const expected: Refusal | undefined = chosen.undone
        ? "undo-blocked"
        : graph.undo(chosen.written);
      const undo = () =>
        step.which % 2 === 0
          ? store.undoImport(chosen.id, occasion)
          : store.undo(chosen.sequence, occasion);
      expect(await refusalOf(undo)).toBe(expected);
      if (expected === undefined) chosen.undone = true;
      // How often undo raises a version is the store's affair; that it is newer is checked by stale writes.
      const now = named(await everything(store));
      for (const [name, thing] of graph.things)
        graph.things.set(name, { ...thing, version: now.get(name)?.version ?? 0 });
      for (const [name, thing] of chosen.written.after)
        if (thing !== undefined && !graph.things.has(name))
          graph.lastVersions.set(name, Number.NaN);
    } else {
      const trial = graph.clone();
      trial.begin();
      const changes: ProposedChange[] = [];
      let expected: Refusal | undefined;
      for (const operation of step.operations) {
        const change = concrete(trial, operation);
        if (change === undefined) continue;
        changes.push(change);
        expected = trial.apply(change);
        if (expected !== undefined) break;
      }
      let importId: NodeId | undefined;
      let sequence = 0;
      const refusal = await refusalOf(async () => {
        ({ importId, sequence } = await store.apply({ changes }, importOccasion("random.csv")));
      });
      expect(refusal).toBe(expected);
      if (refusal === undefined) {
        graph = trial;
        const written = trial.written();
        expect(importId === undefined).toBe(written.before.size === 0);
        if (importId !== undefined)
          imports.push({ id: importId, sequence, written, undone: false });
        const now = named(await everything(store));
        for (const [name, thing] of graph.things)
          if (Number.isNaN(thing.version))
            graph.things.set(name, { ...thing, version: now.get(name)?.version ?? 0 });
      }
    }
    expect(named(await everything(store))).toEqual(named(graph.things.values()));
  }
  // Each entry of the journal begins where the one before it about the same record ended.
  const journal = (await store.journal({ limit: 100_000 })).toReversed();
  const last = new Map<string, unknown>();
  for (const { subject, before, after } of journal) {
    const name = JSON.stringify(subject);
    expect(before).toStrictEqual(last.get(name));
    last.set(name, after);
  }
}

export function randomContract(open: StoreFactory, runs: number): void {
  describe("random operations", () => {
    test("leave the store in the state of the plain reference, refusals included", {
      timeout: 300_000,
    }, async () => {
      await fc.assert(
        fc.asyncProperty(steps, async (script) => {
          await follow(await open(), script);
        }),
        { numRuns: runs, seed: 20260301 },
      );
    });
  });
}
