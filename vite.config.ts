import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { offlineWorker } from "./ui/build/offline-worker.ts";
import { schemaList } from "./ui/build/schema-list.ts";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/**
 * The screen is built into files the program serves itself under a strict content-security policy:
 * module scripts, one stylesheet, fonts beside them; nothing inline, no data: URL, no polyfill script.
 */
export default defineConfig({
  root: here("ui"),
  base: "./",
  plugins: [react(), schemaList(), offlineWorker()],
  build: {
    outDir: here("dist/ui"),
    emptyOutDir: true,
    target: "es2023",
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 900,
  },
  server: { proxy: { "/api": "http://127.0.0.1:4747" } },
});
