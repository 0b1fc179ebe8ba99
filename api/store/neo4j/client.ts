import neo4j, {
  type BookmarkManager,
  type Driver,
  int,
  isInt,
  type ManagedTransaction,
} from "neo4j-driver";
import { Problem } from "../../errors/problem.ts";
import { neo4jProblem } from "./neo4j-problem.ts";
import type { Neo4jSettings } from "./settings.ts";

export type Parameters = Readonly<Record<string, unknown>>;

/** What the parts of the store ask of a transaction: rows as arrays in the order of the columns. */
export interface Transaction {
  rows(query: string, parameters?: Parameters): Promise<unknown[][]>;
  /** Rows of a query that returns one list a row; cheaper for very many. */
  lists(query: string, parameters?: Parameters): Promise<unknown[][]>;
  /** Rows by the names of their columns. */
  objects(query: string, parameters?: Parameters): Promise<Record<string, unknown>[]>;
  run(query: string, parameters?: Parameters): Promise<void>;
}

export interface OpenTransaction extends Transaction {
  /** Records one after another, read no faster than they are taken. */
  stream(query: string): AsyncIterable<{ get(at: number): unknown }>;
  commit(): Promise<void>;
  end(): Promise<void>;
}

/** How long the driver tries again after a failure that may pass: longer than a server takes to start again. */
const retryMs = 60_000;
const rowsAtATime = 20_000;

/** The driver of one database with its sessions: every one sees what this client wrote before (bookmarks). */
export class Client {
  readonly settings: Neo4jSettings;
  readonly #driver: Driver;
  readonly #bookmarks: BookmarkManager = neo4j.bookmarkManager();

  constructor(settings: Neo4jSettings, retryTimeMs = retryMs) {
    this.settings = settings;
    const { uri, user, password } = settings;
    const token = password === "" ? undefined : neo4j.auth.basic(user, password);
    try {
      this.#driver = neo4j.driver(uri, token, {
        maxTransactionRetryTime: retryTimeMs,
        connectionAcquisitionTimeout: 30_000,
        connectionTimeout: 10_000,
        userAgent: "sparewright",
        notificationFilter: neo4j.notificationFilterMinimumSeverityLevel.OFF
          ? { minimumSeverityLevel: neo4j.notificationFilterMinimumSeverityLevel.OFF }
          : {},
      });
    } catch (cause) {
      throw new Problem("store-settings", `NEO4J_URI cannot be used: ${String(cause)}.`, { cause });
    }
  }

  /** Runs `work` in a transaction that only reads; it may run again after a passing failure. */
  read<T>(work: (transaction: Transaction) => Promise<T>): Promise<T> {
    return this.#within((session) => session.executeRead((managed) => work(wrapped(managed))));
  }

  /** Runs `work` in one write transaction: all of it or nothing. It may run again, so it must begin from what it reads. */
  write<T>(work: (transaction: Transaction) => Promise<T>): Promise<T> {
    return this.#within((session) => session.executeWrite((managed) => work(wrapped(managed))));
  }

  /**
   * A write transaction that is given to the caller, for work that cannot be begun again because it consumes or
   * yields a stream. `commit` makes it last; `end` is always to be called, and takes back what was not committed.
   */
  async open(): Promise<OpenTransaction> {
    const session = this.#session();
    try {
      const transaction = await session.beginTransaction();
      return {
        ...wrapped(transaction),
        stream: (query) => transaction.run(query) as AsyncIterable<{ get(at: number): unknown }>,
        commit: () => transaction.commit(),
        end: async () => {
          if (transaction.isOpen()) await transaction.rollback().catch(() => undefined);
          await session.close();
        },
      };
    } catch (cause) {
      await session.close();
      throw neo4jProblem(cause, this.settings);
    }
  }

  /** Runs a statement in a transaction of its own, as changes of the schema must be. */
  statement(query: string, parameters: Parameters = {}): Promise<void> {
    return this.#within(async (session) => {
      await session.run(query, parameters);
    });
  }

  /** Errors: `store-unreachable`, `store-refused`. */
  async verify(): Promise<void> {
    await this.guard(() => this.#driver.verifyConnectivity(this.#database));
  }

  async close(): Promise<void> {
    await this.#driver.close();
  }

  /** Turns the server's failures into the catalogue's. */
  async guard<T>(work: () => Promise<T>): Promise<T> {
    try {
      return await work();
    } catch (cause) {
      throw neo4jProblem(cause, this.settings);
    }
  }

  get #database(): { database?: string } {
    const { database } = this.settings;
    return database === undefined ? {} : { database };
  }

  #session(): ReturnType<Driver["session"]> {
    return this.#driver.session({
      ...this.#database,
      bookmarkManager: this.#bookmarks,
      fetchSize: rowsAtATime,
    });
  }

  #within<T>(work: (session: ReturnType<Driver["session"]>) => Promise<T>): Promise<T> {
    return this.guard(async () => {
      const session = this.#session();
      try {
        return await work(session);
      } finally {
        await session.close();
      }
    });
  }
}

function wrapped(managed: Pick<ManagedTransaction, "run">): Transaction {
  const collected = (
    query: string,
    parameters: Parameters,
    take: (values: { get(at: number): unknown; readonly keys: readonly unknown[] }) => unknown[],
  ) =>
    new Promise<unknown[][]>((resolve, reject) => {
      const rows: unknown[][] = [];
      managed.run(query, parameters).subscribe({
        onNext: (record) => {
          rows.push(take(record as never));
        },
        onCompleted: () => resolve(rows),
        onError: reject,
      });
    });
  return {
    rows: (query, parameters = {}) =>
      collected(query, parameters, (record) => record.keys.map((_, at) => record.get(at))),
    lists: (query, parameters = {}) =>
      collected(query, parameters, (record) => record.get(0) as unknown[]),
    objects: async (query, parameters = {}) =>
      (await managed.run(query, parameters)).records.map((record) => record.toObject()),
    run: async (query, parameters = {}) => {
      await managed.run(query, parameters);
    },
  };
}

/** A whole number for the server, exact to 2^53 as all of ours are. */
export const whole = (value: number) => int(value);

/** A number from the server. Errors: `store-damaged` where another program wrote one that this one cannot hold exactly. */
export function numberOf(value: unknown): number {
  if (typeof value === "number") return value;
  if (isInt(value as object)) {
    const found = value as ReturnType<typeof int>;
    if (found.inSafeRange()) return found.toNumber();
  }
  throw new Problem(
    "store-damaged",
    `Whole numbers in the graph must lie within ±2^53; the server holds ${String(value)}. Correct it there.`,
  );
}
