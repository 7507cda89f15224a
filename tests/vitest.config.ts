import { defineConfig } from "vitest/config";
import { SkippedBrowserTests } from "./skipped-browser.ts";

export default defineConfig({
  define: { ROLLBOOK_VERSION: JSON.stringify("test") },
  test: {
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/e2e/**"],
    // Decoding tests start LibRaw; on a loaded two-core machine its first start can take seconds.
    testTimeout: 180_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
    reporters: ["default", new SkippedBrowserTests()],
  },
});
