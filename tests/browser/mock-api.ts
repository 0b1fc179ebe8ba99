import { readFile } from "node:fs/promises";
import { createServer, type IncomingMessage } from "node:http";
import { extname, join, normalize } from "node:path";
import { commonalityFixture, importFixture, kitFixture, overviewFixture } from "./mock-fixtures.ts";
import { suppliersFixture } from "./suppliers-fixture.ts";

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};

/** At least as strict as the real server's, so that the screen is looked at under it. */
const policy =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

const bodyOf = async (request: IncomingMessage): Promise<string> => {
  const chunks: Buffer[] = [];
  for await (const chunk of request) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks).toString("utf8");
};

interface Asked {
  readonly targets?: {
    readonly safety?: number;
    readonly passage?: number;
    readonly comfort?: number;
  };
}

/** Serves the built screen with made-up documents behind it; returns its address and how to stop it. */
export async function startMock(
  built: string,
  port = 0,
): Promise<{ readonly address: string; readonly stop: () => void }> {
  let committed = false;
  const answer = async (request: IncomingMessage, url: URL): Promise<unknown> => {
    const body = await bodyOf(request);
    if (url.pathname === "/api/overview") return overviewFixture;
    if (url.pathname === "/api/commonality") return commonalityFixture();
    if (url.pathname === "/api/suppliers") return suppliersFixture();
    if (url.pathname === "/api/kit") {
      const asked = (JSON.parse(body) as Asked).targets ?? {};
      return kitFixture([asked.safety ?? 0.99, asked.passage ?? 0.95, asked.comfort ?? 0.8]);
    }
    if (url.pathname === "/api/imports" && request.method === "POST") {
      const options = JSON.parse(url.searchParams.get("options") ?? "{}") as {
        dryRun?: boolean;
        mapping?: Record<string, string | null>;
      };
      committed = options.dryRun === false;
      return importFixture(url.searchParams.get("name") ?? "", committed, options.mapping ?? {});
    }
    if (url.pathname === "/api/imports")
      return {
        imports: [
          {
            id: "Import:1",
            name: "gear-wagtail.csv",
            at: "2026-10-02T09:12:00Z",
            who: "skipper",
            read: 61,
            accepted: 60,
            rejected: 1,
            undone: null,
          },
          {
            id: "Import:0",
            name: "old stock.csv",
            at: "2026-10-01T09:12:00Z",
            who: "mate",
            read: 20,
            accepted: 20,
            rejected: 0,
            undone: "2026-10-01T10:00:00Z",
          },
        ],
      };
    if (url.pathname.endsWith("/undo"))
      return {
        import: { id: "Import:1", name: "gear-wagtail.csv" },
        nodesDeleted: 88,
        nodesRestored: 3,
        linksDeleted: 120,
        linksRestored: 0,
        sentence:
          "gear-wagtail.csv is undone: 88 records taken out again, 3 put back as they were.",
      };
    return undefined;
  };
  const server = createServer((request, response) => {
    const url = new URL(request.url ?? "/", "http://localhost");
    const respond = async () => {
      response.setHeader("content-security-policy", policy);
      if (url.pathname.startsWith("/api/")) {
        const document = await answer(request, url);
        response.writeHead(document === undefined ? 404 : 200, {
          "content-type": "application/json",
        });
        response.end(
          JSON.stringify(
            document ?? {
              type: "about:blank",
              title: "Not found",
              status: 404,
              detail: "No such address.",
              code: "not-found",
            },
          ),
        );
        return;
      }
      const path = normalize(url.pathname === "/" ? "/index.html" : url.pathname);
      const file = await readFile(join(built, path)).catch(() => undefined);
      response.writeHead(file === undefined ? 404 : 200, {
        "content-type": types[extname(path)] ?? "application/octet-stream",
      });
      response.end(file);
    };
    void respond();
  });
  await new Promise<void>((resolve) => server.listen(port, "127.0.0.1", resolve));
  const bound = server.address();
  const at = typeof bound === "object" && bound !== null ? bound.port : port;
  return { address: `http://127.0.0.1:${at}`, stop: () => server.close() };
}
