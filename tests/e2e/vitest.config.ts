import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: ["tests/e2e/**/*.e2e.ts"],
    setupFiles: ["tests/e2e/host/setup.ts"],
    pool: "forks",
    // One editor and one browser at a time: two of them would wait for each other on a small machine.
    fileParallelism: false,
    maxWorkers: 1,
    // A whole editor in a browser on a small machine misses a beat now and then; what fails twice is broken.
    retry: process.env.CI ? 1 : 0,
    testTimeout: 120_000,
    hookTimeout: 120_000,
    teardownTimeout: 30_000,
  },
});
