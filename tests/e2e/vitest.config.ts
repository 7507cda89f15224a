import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    root: new URL("../..", import.meta.url).pathname,
    include: ["tests/e2e/**/*.e2e.ts"],
    setupFiles: ["tests/e2e/host/setup.ts"],
    pool: "forks",
    // Two editors and browsers at a time: one alone leaves two thirds of two cores idle. A session shares nothing with
    // another one: its port, profile, folder and browser are its own.
    maxWorkers: 2,
    // A whole editor in a browser on a small machine misses a beat now and then; what fails twice is broken.
    retry: process.env.CI ? 1 : 0,
    expect: { poll: { timeout: 30_000 } },
    testTimeout: 120_000,
    hookTimeout: 120_000,
    teardownTimeout: 30_000,
  },
});
