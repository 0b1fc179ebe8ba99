import { beforeAll, describe, expect, test } from "vitest";
import { openDemo } from "../../api/plans/open-demo.ts";
import { partClasses } from "../../api/scoring/classes/part-classes.ts";
import { fittedScope } from "../../api/scoring/commonality/fitted-scope.ts";
import { commonalityIndices } from "../../api/scoring/commonality/indices.ts";
import { distinctKits } from "../../api/scoring/commonality/kits.ts";
import { columnsOfRows } from "../../api/scoring/coverage/cover-problem.ts";
import { suppliedGear } from "../../api/scoring/coverage/supplied-gear.ts";
import { whatPartsStop } from "../../api/scoring/coverage/what-a-part-stops.ts";
import type { Snapshot } from "../../api/scoring/snapshot/snapshot.ts";
import type { Neo4jStore } from "../../api/store/neo4j/neo4j-store.ts";
import { questions, questionText } from "../../api/store/neo4j/questions.ts";
import { cypherExamples } from "../../graph-schema/derive/cypher-examples.ts";
import type { NodeId } from "../../graph-schema/index.ts";
import { shaken } from "../external/independent-shake.ts";
import { cypher, profiledOperators } from "./cypher.ts";
import { onRealServer } from "./test-server.ts";

const demo = new URL("../../importers/demo/", import.meta.url).pathname;

/** What the snapshot path says, for the whole fleet or one vessel. */
function bySnapshot(snapshot: Snapshot, vessel: string) {
  const row = snapshot.vessels.id.indexOf(vessel as NodeId);
  const classes = partClasses(snapshot, vessel === "" ? {} : { vessel: row });
  const scope = fittedScope(snapshot, classes, vessel === "" ? {} : { vessel: row });
  const gear = suppliedGear(snapshot, classes, scope);
  const classOfPart = new Map(
    snapshot.parts.id.map((id, part) => [String(id), classes.classOf[part]]),
  );
  return { classes, scope, gear, classOfPart, figures: commonalityIndices(scope.all) };
}

const occasion = { who: "test", at: "2026-11-20T12:00:00Z" };

onRealServer("Questions that the server answers", ({ settings, emptyStore }) => {
  // Shaken, pairs of every confidence touch safety gear, directly and through replaced numbers.
  describe.each(["the demo", "the demo, shaken"])("on %s", (scene) => {
    let store: Neo4jStore;
    let snapshot: Snapshot;
    beforeAll(async () => {
      store = await emptyStore();
      await openDemo(store, demo, occasion);
      if (scene !== "the demo") await store.apply(shaken(await store.knownGraph(), 7), occasion);
      snapshot = await store.snapshot();
      return () => store.close();
    }, 900_000);
    const scopes = () => ["", ...snapshot.vessels.id.map(String)];

    test("the scene holds what it is for", () => {
      const { safetyApart } = partClasses(snapshot);
      expect(safetyApart.length > 0).toBe(scene !== "the demo");
    });

    test("distinct parts and indices are those of the snapshot", async () => {
      for (const vessel of scopes()) {
        const { figures, scope } = bySnapshot(snapshot, vessel);
        expect(await store.ask("distinct-parts", { vessel })).toEqual([
          {
            distinctParts: figures.distinctParts,
            lines: figures.uses,
            usedByOneModelOnly: figures.usedByOneModel,
          },
        ]);
        const [indices] = await store.ask("indices", { vessel });
        expect(indices).toEqual({
          models: scope.models.length,
          items: scope.items.reduce((sum, n) => sum + n, 0),
          lines: figures.uses,
          distinctParts: figures.distinctParts,
          degreeOfCommonality: expect.closeTo(figures.degreeOfCommonality ?? Number.NaN, 12),
          totalConstantCommonality: expect.closeTo(
            figures.totalConstantCommonality ?? Number.NaN,
            12,
          ),
          componentCommonality: expect.closeTo(figures.commonality ?? Number.NaN, 12),
        });
      }
    });

    test("kits group the same models", async () => {
      for (const vessel of scopes()) {
        const { scope } = bySnapshot(snapshot, vessel);
        const kits = distinctKits(scope.sparable);
        const groups = (lists: readonly (readonly string[])[]) =>
          lists.map((list) => list.toSorted().join(" ")).toSorted();
        const rows = await store.ask("kits", { vessel });
        expect(groups(rows.map(({ models }) => models as string[]))).toEqual(
          groups(
            kits.modelsOfKit.map((models) =>
              models.map((at) => String(snapshot.models.id[scope.models[at] ?? -1])),
            ),
          ),
        );
        expect(rows.map(({ parts }) => Number(parts)).toSorted((a, b) => a - b)).toEqual(
          kits.partsOfKit.map(({ length }) => length).toSorted((a, b) => a - b),
        );
      }
    });

    test("supplier coverage and single-source parts are those of the snapshot", async () => {
      for (const vessel of scopes()) {
        const { gear, classOfPart } = bySnapshot(snapshot, vessel);
        const covered = new Map(
          gear.columns.map((rows, at) => [String(snapshot.suppliers.id[at]), rows.length]),
        );
        const rows = await store.ask("supplier-coverage", { vessel });
        expect(new Map(rows.map(({ supplier, parts }) => [supplier, parts]))).toEqual(
          new Map([...covered].filter(([, parts]) => parts > 0)),
        );
        const lists = await store.ask("supplier-parts", { vessel });
        expect(
          new Map(lists.map(({ supplier, classes }) => [supplier, (classes as number[]).length])),
        ).toEqual(new Map([...covered].filter(([, parts]) => parts > 0)));
        const single = await store.ask("single-source-parts", { vessel });
        const pairs = single.map(
          ({ part, supplier }) => `${classOfPart.get(String(part))} ${supplier}`,
        );
        const expected = columnsOfRows(gear).flatMap((sellers, row) =>
          sellers.length === 1
            ? [`${gear.partClasses[row]} ${snapshot.suppliers.id[sellers[0] ?? -1]}`]
            : [],
        );
        expect(expected.length).toBeGreaterThan(0);
        expect(pairs.toSorted()).toEqual(expected.toSorted());
      }
    });

    test("where a part is used and what stops without it are those of the snapshot", async () => {
      const { classes } = bySnapshot(snapshot, "");
      const stops = whatPartsStop(snapshot, classes);
      const chosen = [...stops.keys()].filter((_, at) => at % 23 === 0);
      expect(chosen.length).toBeGreaterThan(10);
      // And those that interchange, whichever of them is asked for.
      const several = [...stops.keys()].filter((c) => (classes.members[c]?.length ?? 0) > 1);
      expect(several.length).toBeGreaterThan(0);
      for (const partClass of [...chosen, ...several])
        for (const member of classes.members[partClass] ?? []) {
          const part = String(snapshot.parts.id[member]);
          const found = stops.get(partClass);
          expect(await store.ask("what-stops", { part })).toHaveLength(found?.itemsStopped ?? -1);
          const used = await store.ask("where-used", { part });
          const expected: string[] = [];
          snapshot.items.model.forEach((model, item) => {
            for (
              let at = snapshot.uses.start[model] ?? 0;
              at < (snapshot.uses.start[model + 1] ?? 0);
              at++
            )
              if (classes.classOf[snapshot.uses.target[at] ?? -1] === partClass)
                expected.push(`${snapshot.items.id[item]} ${snapshot.uses.quantity[at]}`);
          });
          expect(used.map(({ item, pieces }) => `${item} ${pieces}`).toSorted()).toEqual(
            expected.toSorted(),
          );
        }
    });

    test("each begins at an index, and none looks at all nodes", async () => {
      const part = String(snapshot.parts.id[0]);
      for (const question of questions) {
        const operators = await profiledOperators(settings(), questionText(question), {
          vessel: "",
          part,
        });
        expect(operators.join(" "), question).toMatch(/Node(Unique)?IndexSeek/);
        expect(operators.join(" "), question).not.toMatch(
          /AllNodesScan|NodeByLabelScan|CartesianProduct/,
        );
      }
    });

    test("the examples of the model page answer on the demo", async () => {
      expect(cypherExamples.length).toBeGreaterThanOrEqual(12);
      for (const { question, query } of cypherExamples)
        expect((await cypher(settings(), query)).length, question).toBeGreaterThan(0);
    });
  });
});
