import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
    env: { TZ: "UTC", LC_ALL: "C.UTF-8" },
    testTimeout: 30_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
    setupFiles: ["tests/tools/fail-on-console.ts"],
  },
});
