import { existsSync } from "node:fs";
import { join } from "node:path";
import express, { type Express } from "express";
import { Problem } from "../errors/problem.ts";

/** Serves the built screen; any address without a file ending is the screen's own and gets its one page. */
export function serveScreen(app: Express, folder: string): void {
  const page = join(folder, "index.html");
  app.use(
    express.static(folder, {
      index: false,
      dotfiles: "ignore",
      setHeaders: (response, path) => {
        const isHashed = path.includes(`${join(folder, "assets")}`);
        response.setHeader(
          "Cache-Control",
          isHashed ? "public, max-age=31536000, immutable" : "no-cache",
        );
      },
    }),
  );
  app.get("/*splat", (request, response, next) => sendPage(request.path, response, next));
  app.get("/", (request, response, next) => sendPage(request.path, response, next));

  function sendPage(path: string, response: express.Response, next: express.NextFunction): void {
    if (path.startsWith("/api/") || /\.[a-z0-9]+$/i.test(path)) {
      next();
      return;
    }
    if (!existsSync(page)) {
      throw new Problem(
        "not-found",
        "The screen is built by `npm run build`, and has not been built here. Build it, then reload; the API under /api works without it.",
      );
    }
    response.setHeader("Cache-Control", "no-cache");
    response.sendFile(page);
  }
}
