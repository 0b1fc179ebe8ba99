import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import type { Express } from "express";
import { Problem } from "../errors/problem.ts";

export interface Listening {
  readonly address: string;
  readonly port: number;
  close(): Promise<void>;
}

function listenOnce(app: Express, port: number): Promise<Server> {
  return new Promise((resolve, reject) => {
    const server: Server = app.listen(port, "127.0.0.1", (error?: Error) => {
      if (error === undefined) resolve(server);
      else reject(error);
    });
  });
}

const codeOf = (error: unknown): unknown =>
  typeof error === "object" && error !== null ? Reflect.get(error, "code") : undefined;

/**
 * Listens on loopback only. `tries` ports are tried upwards from `port`; port 0 asks the system for a free one.
 * Errors: `port-taken`.
 */
export async function listen(app: Express, port: number, tries = 1): Promise<Listening> {
  for (let attempt = 0; ; attempt++) {
    try {
      const server = await listenOnce(app, port === 0 ? 0 : port + attempt);
      const { port: actual } = server.address() as AddressInfo;
      return {
        port: actual,
        address: `http://127.0.0.1:${actual}/`,
        close: () =>
          new Promise((resolve) => {
            server.close(() => resolve());
            server.closeAllConnections();
          }),
      };
    } catch (error) {
      const code = codeOf(error);
      if (code !== "EADDRINUSE" && code !== "EACCES") throw error;
      if (code === "EADDRINUSE" && attempt + 1 < tries) continue;
      throw new Problem(
        "port-taken",
        `The screen needs a free port; ${port} is ${code === "EACCES" ? "not open to this user" : "in use"}. Close the other program, or choose another with --port.`,
        { cause: error },
      );
    }
  }
}
