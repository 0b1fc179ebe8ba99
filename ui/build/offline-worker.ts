import type { Plugin } from "vite";

/** The worker's own code; it runs outside the page and sees nothing but the list of files put before it. */
const work = `
self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(shelf)
      .then((cache) => cache.addAll(files.map((file) => new Request(file, { cache: "no-cache" }))))
      .then(() => self.skipWaiting()),
  );
});
self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names
            .filter((name) => name.startsWith("sparewright-screen-") && name !== shelf)
            .map((name) => caches.delete(name)),
        ),
      )
      .then(() => self.clients.claim()),
  );
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (url.pathname.startsWith("/api/")) return;
  if (request.mode === "navigate") {
    event.respondWith(fetch(request).catch(() => caches.match("./", { cacheName: shelf })));
    return;
  }
  event.respondWith(
    caches.match(request, { cacheName: shelf }).then((kept) => kept ?? fetch(request)),
  );
});
`;

/** A short mark of a text (FNV-1a, 32 bits): another build, another mark; file names carry hashes of their own. */
function markOf(text: string): string {
  let mark = 0x811c9dc5;
  for (const letter of text) mark = Math.imul(mark ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  return (mark >>> 0).toString(16);
}

/** Adds a service worker that keeps the screen's files, so that the screen opens when the program is away. */
export const offlineWorker = (): Plugin => ({
  name: "offline-worker",
  apply: "build",
  generateBundle: {
    order: "post",
    handler(_options, bundle) {
      const files = ["./", ...Object.keys(bundle).filter((name) => name !== "index.html")].sort();
      const page = bundle["index.html"];
      const text = page !== undefined && "source" in page ? String(page.source) : "";
      const mark = markOf(`${files.join("\n")}${text}`);
      this.emitFile({
        type: "asset",
        fileName: "worker.js",
        source: `const shelf = "sparewright-screen-${mark}";\nconst files = ${JSON.stringify(files)};\n${work}`,
      });
    },
  },
});
