import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { randomBytes } from "node:crypto";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { connect, createServer } from "node:net";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";
import neo4j from "neo4j-driver";

const pom = fileURLToPath(new URL("server.pom.xml", import.meta.url));
const cache = fileURLToPath(new URL("../../node_modules/.cache/neo4j-for-tests", import.meta.url));
const startWithinMs = 120_000;

const answers = (command: string, ...words: readonly string[]): boolean => {
  try {
    execFileSync(command, words, { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
};
export const hasJavaAndMaven = (): boolean => answers("java", "-version") && answers("mvn", "-v");

/** The jars of the pinned server, fetched by Maven the first time and remembered while they are there. */
function classPath(): string {
  const remembered = join(cache, "classpath");
  const mark = readFileSync(pom, "utf8");
  const markFile = join(cache, "pom.xml");
  const isFresh = existsSync(markFile) && readFileSync(markFile, "utf8") === mark;
  if (isFresh && existsSync(remembered)) {
    const known = readFileSync(remembered, "utf8");
    if (known.split(delimiter).every((jar) => existsSync(jar))) return known;
  }
  mkdirSync(cache, { recursive: true });
  const words = ["-q", "-B", "-f", pom, "dependency:build-classpath"];
  execFileSync("mvn", [...words, `-Dmdep.outputFile=${remembered}`], { stdio: "ignore" });
  writeFileSync(markFile, mark);
  return readFileSync(remembered, "utf8");
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject).listen(0, "127.0.0.1", () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === "object" && address ? address.port : 0));
    });
  });
}

const isListening = (port: number): Promise<boolean> =>
  new Promise((resolve) => {
    const socket = connect(port, "127.0.0.1");
    const end = (is: boolean) => {
      socket.destroy();
      resolve(is);
    };
    socket.once("connect", () => end(true)).once("error", () => end(false));
  });

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

interface ServerSize {
  /** In the notation of the JVM: "768m", "3g". */
  readonly heap?: string;
  readonly pageCache?: string;
  /** By default compiled quickly rather than well. */
  readonly javaOptions?: readonly string[];
  /** Folder of private.key and public.crt; connections may then be encrypted. */
  readonly certificateFolder?: string;
}

/** A server of our own, on a free port of the loopback address, with a password made up for it; in a folder that goes with it. */
export class MavenServer {
  readonly uri: string;
  readonly user = "neo4j";
  readonly password = randomBytes(18).toString("base64url");
  readonly #home: string;
  readonly #port: number;
  readonly #javaOptions: readonly string[];
  #process: ChildProcess | undefined;

  private constructor(home: string, port: number, javaOptions: readonly string[]) {
    this.#home = home;
    this.#port = port;
    this.#javaOptions = javaOptions;
    this.uri = `bolt://127.0.0.1:${port}`;
  }

  static async start({
    heap = "768m",
    pageCache = "128m",
    javaOptions = ["-XX:TieredStopAtLevel=1"],
    certificateFolder,
  }: ServerSize = {}): Promise<MavenServer> {
    const home = mkdtempSync(join(tmpdir(), "neo4j-test-"));
    const port = await freePort();
    mkdirSync(join(home, "conf"));
    const settings = {
      "server.default_listen_address": "127.0.0.1",
      "server.bolt.listen_address": `127.0.0.1:${port}`,
      "server.bolt.advertised_address": `127.0.0.1:${port}`,
      "server.http.enabled": false,
      "server.https.enabled": false,
      "server.memory.pagecache.size": pageCache,
      "dbms.security.auth_enabled": true,
      "dbms.usage_report.enabled": false,
      // Tests fill and empty the graph all the time; planning anew each time would take most of theirs.
      "dbms.cypher.statistics_divergence_threshold": 1.0,
      ...(certificateFolder === undefined
        ? {}
        : {
            "dbms.ssl.policy.bolt.enabled": true,
            "dbms.ssl.policy.bolt.base_directory": certificateFolder,
            "server.bolt.tls_level": "OPTIONAL",
          }),
    };
    const lines = Object.entries(settings).map(([name, value]) => `${name}=${value}\n`);
    writeFileSync(join(home, "conf", "neo4j.conf"), lines.join(""));
    const server = new MavenServer(home, port, [`-Xmx${heap}`, ...javaOptions]);
    await server.startAgain();
    await server.#choosePassword();
    return server;
  }

  /** Starts the process and waits until it takes connections. */
  async startAgain(): Promise<void> {
    const opens = ["java.nio", "java.io", "sun.nio.ch", "java.util.concurrent"];
    const child = spawn(
      "java",
      [
        ...this.#javaOptions,
        "-XX:+UseSerialGC",
        ...opens.map((name) => `--add-opens=java.base/${name}=ALL-UNNAMED`),
        "-Dio.netty.tryReflectionSetAccessible=true",
        "-cp",
        classPath(),
        "org.neo4j.server.CommunityEntryPoint",
        `--home-dir=${this.#home}`,
        `--config-dir=${join(this.#home, "conf")}`,
      ],
      { stdio: ["ignore", "ignore", "pipe"] },
    );
    this.#process = child;
    let complaint = "";
    child.stderr?.on("data", (text: Buffer) => {
      complaint = `${complaint}${text}`.slice(-2000);
    });
    const end = Date.now() + startWithinMs;
    while (!(await isListening(this.#port))) {
      if (child.exitCode !== null || child.signalCode !== null || Date.now() > end)
        throw new Error(`The Neo4j server for tests did not start: ${complaint}`);
      await pause(200);
    }
  }

  /** Kills the process as a power cut would. */
  async kill(): Promise<void> {
    const child = this.#process;
    if (child === undefined || child.exitCode !== null || child.signalCode !== null) return;
    const gone = new Promise((resolve) => child.once("exit", resolve));
    child.kill("SIGKILL");
    await gone;
  }

  async stop(): Promise<void> {
    await this.kill();
    rmSync(this.#home, { recursive: true, force: true });
  }

  /** A fresh server's password must be changed before anything else is allowed. */
  async #choosePassword(): Promise<void> {
    const first = "neo4j";
    const end = Date.now() + startWithinMs;
    for (;;) {
      const driver = neo4j.driver(this.uri, neo4j.auth.basic(this.user, first));
      const session = driver.session({ database: "system" });
      try {
        await session.run("ALTER CURRENT USER SET PASSWORD FROM $first TO $own", {
          first,
          own: this.password,
        });
        return;
      } catch (cause) {
        // Just after the port opens the system database may not be there yet.
        if (Date.now() > end) throw cause;
        await pause(300);
      } finally {
        await driver.close();
      }
    }
  }
}
