import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe } from "vitest";
import { Neo4jStore } from "../../api/store/neo4j/neo4j-store.ts";
import type { Neo4jSettings } from "../../api/store/neo4j/settings.ts";
import { cypher } from "./cypher.ts";
import { hasJavaAndMaven, MavenServer } from "./maven-server.ts";

/** A real server that tests may fill and empty as they like. */
interface TestServer {
  readonly settings: Neo4jSettings;
  stop(): Promise<void>;
}

const startWithinMs = 15 * 60_000;

interface Way {
  readonly kind: "named" | "docker" | "maven" | "none";
  readonly why?: string;
}

/** A server named in the environment, else Docker, else Java and Maven. */
async function findWay(): Promise<Way> {
  if (process.env["NEO4J_TEST_URI"]) return { kind: "named" };
  if (await hasDocker()) return { kind: "docker" };
  if (hasJavaAndMaven()) return { kind: "maven" };
  return {
    kind: "none",
    why: "no NEO4J_TEST_URI, no Docker, no Java with Maven: nothing to run Neo4j with",
  };
}

async function hasDocker(): Promise<boolean> {
  try {
    const { getContainerRuntimeClient } = await import("testcontainers");
    await getContainerRuntimeClient();
    return true;
  } catch {
    return false;
  }
}

async function startServer(kind: "named" | "docker" | "maven"): Promise<TestServer> {
  if (kind === "named") {
    const database = process.env["NEO4J_TEST_DATABASE"];
    return {
      settings: {
        uri: process.env["NEO4J_TEST_URI"] ?? "",
        user: process.env["NEO4J_TEST_USER"] ?? "neo4j",
        password: process.env["NEO4J_TEST_PASSWORD"] ?? "",
        ...(database === undefined ? {} : { database }),
      },
      stop: async () => undefined,
    };
  }
  if (kind === "docker") {
    const { GenericContainer, Wait } = await import("testcontainers");
    const password = "for-tests-on-this-machine-only";
    const container = await new GenericContainer("neo4j:5.26.0-community")
      .withEnvironment({ NEO4J_AUTH: `neo4j/${password}` })
      .withExposedPorts(7687)
      .withWaitStrategy(Wait.forLogMessage("Started."))
      .start();
    const uri = `bolt://${container.getHost()}:${container.getMappedPort(7687)}`;
    return {
      settings: { uri, user: "neo4j", password },
      stop: async () => {
        await container.stop();
      },
    };
  }
  const server = await MavenServer.start();
  const { uri, user, password } = server;
  return { settings: { uri, user, password }, stop: () => server.stop() };
}

/** One server at a time: test files run side by side, and this machine need not hold two. */
async function takeTurn(): Promise<() => void> {
  const lock = join(tmpdir(), "sparewright-neo4j-tests.lock");
  for (;;) {
    try {
      mkdirSync(lock);
      writeFileSync(join(lock, "pid"), String(process.pid));
      return () => rmSync(lock, { recursive: true, force: true });
    } catch {
      if (isStale(lock)) rmSync(lock, { recursive: true, force: true });
      await new Promise((resolve) => setTimeout(resolve, 300));
    }
  }
}

function isStale(lock: string): boolean {
  try {
    process.kill(Number(readFileSync(join(lock, "pid"), "utf8")), 0);
    return false;
  } catch (cause) {
    return (cause as NodeJS.ErrnoException).code === "ESRCH";
  }
}

export const way = await findWay();

/**
 * Tests that need a real server: `tests` gets a function that opens an empty store on it. Without any way to run
 * one they are skipped, with a line that says why; under CI that is a failure instead. `startsItsOwn`: the tests
 * start and stop servers themselves, and only take their turn here.
 */
export function onRealServer(
  name: string,
  tests: (server: {
    readonly settings: () => Neo4jSettings;
    readonly emptyStore: (retryMs?: number) => Promise<Neo4jStore>;
  }) => void,
  { startsItsOwn = false }: { readonly startsItsOwn?: boolean } = {},
): void {
  const isMissing = way.kind === "none";
  if (isMissing && process.env["CI"] === "true")
    throw new Error(`Under CI the tests of Neo4j must run: ${way.why}`);
  if (isMissing) process.stderr.write(`${name}: skipped, ${way.why}.\n`);
  describe.skipIf(isMissing)(name, { timeout: 120_000 }, () => {
    let server: TestServer | undefined;
    let endTurn = () => undefined as unknown;
    beforeAll(async () => {
      endTurn = await takeTurn();
      if (way.kind !== "none" && !startsItsOwn) server = await startServer(way.kind);
    }, startWithinMs);
    afterAll(async () => {
      await server?.stop();
      endTurn();
    });
    const settings = () => {
      if (server === undefined) throw new Error("The server has not been started");
      return server.settings;
    };
    tests({
      settings,
      emptyStore: async (retryMs) => {
        await cypher(
          settings(),
          "MATCH (n) WHERE NOT n:Journal CALL (n) { DETACH DELETE n } IN TRANSACTIONS OF 5000 ROWS",
        );
        await cypher(settings(), "MATCH (j:Journal) SET j.sequence = 0, j.anyDeleted = false");
        return Neo4jStore.open(settings(), retryMs);
      },
    });
  });
}
