import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { Neo4jStore } from "../../api/store/neo4j/neo4j-store.ts";
import { mintNodeId } from "../../graph-schema/index.ts";
import { graphPicture } from "../contract/graph-picture.ts";
import { problemOf } from "../contract/parts/problem-of.ts";
import { Draft, importOccasion, occasion, smallFleet } from "../contract/small-fleet.ts";
import { cypher } from "./cypher.ts";
import { onRealServer, way } from "./test-server.ts";

const folder = mkdtempSync(join(tmpdir(), "neo4j-failures-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function makers(count: number, word: string) {
  const draft = new Draft();
  for (let at = 0; at < count; at++) {
    const name = `${word} ${at}`;
    draft.node("Maker", { name }, name);
  }
  return draft.set;
}

onRealServer("Neo4j refuses clearly and lets several work at once", ({ settings, emptyStore }) => {
  test("a wrong password, a wrong database and a server that is away are told apart", async () => {
    await (await emptyStore()).close();
    const password = "not-the-password";
    const refused = await problemOf(Neo4jStore.open({ ...settings(), password }));
    expect(refused.code).toBe("store-refused");
    expect(refused.message).toContain("NEO4J_PASSWORD");
    expect(JSON.stringify([refused.message, refused.facts])).not.toContain(password);
    const lost = await problemOf(Neo4jStore.open({ ...settings(), database: "nosuch" }));
    expect([lost.code, lost.message]).toEqual(["store-refused", expect.stringContaining("nosuch")]);
    const away = await problemOf(Neo4jStore.open({ ...settings(), uri: "neo4j://127.0.0.1:1" }));
    expect(away.code).toBe("store-unreachable");
  });

  test("routing and direct addresses lead to the same graph", async () => {
    const store = await emptyStore();
    await store.apply(smallFleet().set, occasion);
    const routed = await Neo4jStore.open({
      ...settings(),
      uri: settings().uri.replace(/^bolt:/, "neo4j:"),
    });
    expect(await graphPicture(routed)).toStrictEqual(await graphPicture(store));
    await routed.close();
    await store.close();
  });

  test("another program's data and a newer version's are left alone", async () => {
    await (await emptyStore()).close();
    await cypher(settings(), "MATCH (j:Journal) SET j.schemaVersion = 99");
    expect((await problemOf(Neo4jStore.open(settings()))).code).toBe("store-newer");
    await cypher(settings(), "MATCH (j:Journal) DELETE j");
    await cypher(settings(), "CREATE (:Invoice {number: 1})");
    expect((await problemOf(Neo4jStore.open(settings()))).code).toBe("store-damaged");
    expect(await cypher(settings(), "MATCH (n) RETURN count(n) AS held")).toEqual([{ held: 1 }]);
  });

  test("whole numbers go in and come back exact, and one too large to be exact is said to be so", async () => {
    const store = await emptyStore();
    const { set, ids } = smallFleet();
    await store.apply(set, occasion);
    const offer = { type: "OFFERS", from: ids.supplier, to: ids.pawl } as const;
    const priceMinor = Number.MAX_SAFE_INTEGER;
    await store.apply(
      { changes: [{ kind: "update-link", ...offer, basedOn: 1, set: { priceMinor } }] },
      occasion,
    );
    const match = "MATCH (:Supplier)-[o:OFFERS]->(:Part {id: $to})";
    expect(
      await cypher(settings(), `${match} RETURN toString(o.priceMinor) AS price`, offer),
    ).toEqual([{ price: "9007199254740991" }]);
    const [link] = await store.linksTo(ids.pawl, "OFFERS");
    expect(link?.properties["priceMinor"]).toBe(priceMinor);
    await cypher(settings(), `${match} SET o.priceMinor = 9007199254740993`, offer);
    expect((await problemOf(store.linksTo(ids.pawl, "OFFERS"))).message).toContain("2^53");
    await store.close();
  });

  test("two clients write at once: all their writes are there, numbered without gap or overlap", async () => {
    const one = await emptyStore();
    const two = await Neo4jStore.open(settings());
    const each = 15;
    const write = async (store: Neo4jStore, word: string) => {
      const receipts = [];
      for (let at = 0; at < each; at++)
        receipts.push(
          await store.apply(makers(5, `${word} ${at}`), importOccasion(`${word} ${at}`)),
        );
      return receipts;
    };
    const receipts = (await Promise.all([write(one, "one"), write(two, "two")])).flat();
    expect(new Set(receipts.map(({ sequence }) => sequence)).size).toBe(2 * each);
    expect(new Set(receipts.map(({ importId }) => importId)).size).toBe(2 * each);
    expect(await one.count("Maker")).toBe(2 * each * 5);
    const sequence = await two.sequence();
    expect(sequence).toBe(2 * each * 6);
    const numbers = (await one.journal({ limit: 1000 })).map((entry) => entry.sequence);
    expect(numbers).toStrictEqual(Array.from({ length: sequence }, (_, at) => sequence - at));
    // Each sees what the other wrote, at once.
    expect(await graphPicture(one)).toStrictEqual(await graphPicture(two));
    await one.close();
    await two.close();
  });

  test("of two clients that change one record at once, one is refused as stale", async () => {
    const one = await emptyStore();
    const two = await Neo4jStore.open(settings());
    await one.apply(makers(1, "maker"), occasion);
    const id = mintNodeId("Maker", "maker 0");
    for (let version = 1; version <= 10; version++) {
      const outcomes = await Promise.allSettled(
        [one, two].map((store, at) =>
          store.apply(
            {
              changes: [
                { kind: "update-node", id, basedOn: version, set: { name: `n${version}${at}` } },
              ],
            },
            occasion,
          ),
        ),
      );
      const refused = outcomes.filter((outcome) => outcome.status === "rejected");
      expect(refused.map(({ reason }) => (reason as { code: string }).code)).toEqual([
        "write-stale",
      ]);
    }
    expect((await two.node(id))?.version).toBe(11);
    await one.close();
    await two.close();
  });

  test.skipIf(way.kind !== "maven")(
    "over TLS: a certificate is checked, unless told not to",
    async () => {
      const { MavenServer } = await import("./maven-server.ts");
      const [key, certificate] = [join(folder, "private.key"), join(folder, "public.crt")];
      const subject = ["-subj", "/CN=127.0.0.1", "-days", "2"];
      execFileSync(
        "openssl",
        [
          "req",
          "-x509",
          "-newkey",
          "rsa:2048",
          "-nodes",
          "-keyout",
          key,
          "-out",
          certificate,
          ...subject,
        ],
        { stdio: "ignore" },
      );
      const server = await MavenServer.start({ certificateFolder: folder });
      try {
        const { user, password } = server;
        const open = (scheme: string) =>
          Neo4jStore.open(
            { user, password, uri: server.uri.replace(/^bolt:/, `${scheme}:`) },
            1000,
          );
        for (const scheme of ["bolt+ssc", "neo4j+ssc"]) {
          const store = await open(scheme);
          expect(await store.count("Part")).toBe(0);
          await store.close();
        }
        // The certificate was made by hand, so a client that checks must turn away.
        for (const scheme of ["bolt+s", "neo4j+s"])
          expect((await problemOf(open(scheme))).code).toBe("store-unreachable");
      } finally {
        await server.stop();
      }
    },
    120_000,
  );
});
