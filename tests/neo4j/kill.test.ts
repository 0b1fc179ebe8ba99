import { expect, test } from "vitest";
import { Neo4jStore } from "../../api/store/neo4j/neo4j-store.ts";
import { seeded } from "../bench/flat-fleet.ts";
import { batchOf, partsPerBatch } from "../contract/kill-batch.ts";
import { problemOf } from "../contract/parts/problem-of.ts";
import { Draft } from "../contract/small-fleet.ts";
import type { MavenServer } from "./maven-server.ts";
import { onRealServer, way } from "./test-server.ts";

const kills = 4;
const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

async function freshServer(): Promise<{
  server: MavenServer;
  open: (retryMs?: number) => Promise<Neo4jStore>;
}> {
  const { MavenServer: Server } = await import("./maven-server.ts");
  const server = await Server.start();
  const { uri, user, password } = server;
  return { server, open: (retryMs) => Neo4jStore.open({ uri, user, password }, retryMs) };
}

/** Only a server of our own can be killed: one that somebody named in the environment is left alone. */
onRealServer(
  "A Neo4j server that is killed",
  () => {
    test.skipIf(way.kind !== "maven")(
      `${kills} times during writes loses nothing acknowledged, doubles nothing, leaves nothing half done`,
      async () => {
        const { server, open } = await freshServer();
        try {
          const store = await open(120_000);
          let acknowledged = -1;
          let isOver = false;
          const writing = (async () => {
            for (let batch = 0; !isOver; batch++) {
              // One call to the store, whatever happens to the server meanwhile.
              await store.apply(batchOf(batch), {
                who: "writer",
                at: "2026-01-01T00:00:00Z",
                importOf: { fileName: `batch ${batch}`, read: partsPerBatch },
              });
              acknowledged = batch;
            }
          })();
          const random = seeded(11);
          for (let kill = 0; kill < kills; kill++) {
            const before = acknowledged;
            while (acknowledged < before + 2) await pause(20);
            await pause(random() * 150);
            await server.kill();
            await server.startAgain();
          }
          isOver = true;
          await writing;
          expect(acknowledged).toBeGreaterThanOrEqual(2 * kills);
          // Opened anew, so that nothing remembered by the client can hide a loss.
          const again = await open();
          const known = await again.knownGraph();
          const partsOf = new Map<string, number>();
          for (const { to } of known.links("MADE_BY").values())
            partsOf.set(to, (partsOf.get(to) ?? 0) + 1);
          expect(known.nodes("Maker").size).toBe(acknowledged + 1);
          for (let batch = 0; batch <= acknowledged; batch++) {
            const maker = known.nodes("Maker").get(`maker ${batch}`);
            expect(partsOf.get(maker?.id ?? ""), `parts of batch ${batch}`).toBe(partsPerBatch);
          }
          expect(await again.count("Import")).toBe(acknowledged + 1);
          expect(await again.sequence()).toBe((acknowledged + 1) * (2 * partsPerBatch + 2));
          await again.close();
          await store.close();
        } finally {
          await server.stop();
        }
      },
      600_000,
    );

    test.skipIf(way.kind !== "maven")(
      "in mid-import, and does not come back: the import is refused and rolled back whole",
      async () => {
        const { server, open } = await freshServer();
        try {
          const store = await open(500);
          const draft = new Draft();
          for (let at = 0; at < 40_000; at++)
            draft.node("Maker", { name: `Maker ${at}` }, `m${at}`);
          let progressed = 0;
          const refused = problemOf(
            store.apply(draft.set, { who: "w", at: "2026-01-01T00:00:00Z" }, (done) => {
              progressed = done;
              if (done > 4000) void server.kill();
            }),
          );
          expect((await refused).code).toBe("store-unreachable");
          expect(progressed).toBeGreaterThan(4000);
          expect(progressed).toBeLessThan(40_000);
          await server.startAgain();
          const again = await open();
          expect(await again.count("Maker")).toBe(0);
          expect(await again.sequence()).toBe(0);
          // The same client goes on once the server is back.
          const receipt = await store.apply(batchOf(1), { who: "w", at: "2026-01-01T00:00:00Z" });
          expect(receipt.nodesCreated).toBe(partsPerBatch + 1);
          await again.close();
          await store.close();
        } finally {
          await server.stop();
        }
      },
      300_000,
    );
  },
  { startsItsOwn: true },
);
