import express, { type Express } from "express";
import { Problem } from "../errors/problem.ts";
import { keepSnapshot } from "../plans/keep-snapshot.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { describeApi } from "./describe-api.ts";
import { mountRoute } from "./mount-route.ts";
import { ownPageOnly } from "./own-page-only.ts";
import { replyWithProblem } from "./reply-with-problem.ts";
import type { Route } from "./route.ts";
import { routes } from "./routes.ts";
import { securityHeaders } from "./security-headers.ts";
import { serveScreen } from "./serve-screen.ts";

export interface AppParts {
  readonly store: GraphStore;
  readonly now: () => Date;
  /** Folder of the built screen; without it only the API is served. */
  readonly uiFolder?: string;
  readonly version?: string;
  /** Where the data lives, in words, for whoever looks at the settings. */
  readonly database?: string;
  /** Told of every failure that is the program's own. */
  readonly report?: (error: unknown) => void;
}

const openApiPath = "/api/openapi.json";

function refuseOtherMethods(app: Express): void {
  const methodsByPath = new Map<string, string[]>([[openApiPath, ["GET", "HEAD"]]]);
  for (const route of routes) {
    const path = route.path.replaceAll(/\{(\w+)\}/g, ":$1");
    const methods = route.method === "get" ? ["GET", "HEAD"] : [route.method.toUpperCase()];
    methodsByPath.set(path, [...(methodsByPath.get(path) ?? []), ...methods]);
  }
  for (const [path, methods] of methodsByPath) {
    app.all(path, (request, response) => {
      response.setHeader("Allow", methods.join(", "));
      throw new Problem(
        "method-refused",
        `${request.path} takes ${methods.join(", ")}; received ${request.method}. Use one of those.`,
      );
    });
  }
}

/** The HTTP application, not yet listening. */
export function buildApp(parts: AppParts): Express {
  const app = express();
  app.disable("x-powered-by");
  app.set("query parser", "simple");
  app.use(securityHeaders, ownPageOnly);
  app.use("/api", (_request, response, next) => {
    response.setHeader("Cache-Control", "no-store");
    next();
  });
  const context = {
    store: keepSnapshot(parts.store),
    now: parts.now,
    about: {
      version: parts.version ?? "0.0.0",
      database: parts.database ?? "In memory only",
    },
  };
  for (const route of routes as readonly Route[]) mountRoute(app, route, context);
  const description = describeApi(routes, parts.version ?? "0.0.0");
  app.get(openApiPath, (_request, response) => {
    response.json(description);
  });
  refuseOtherMethods(app);
  if (parts.uiFolder !== undefined) serveScreen(app, parts.uiFolder);
  app.use((request) => {
    throw new Problem(
      "not-found",
      `There is nothing at ${request.method} ${request.path.slice(0, 200)}. ${openApiPath} lists every address.`,
    );
  });
  app.use(replyWithProblem(parts.report ?? (() => undefined)));
  return app;
}
