// Runs in the test process before the tests. Vitest's test process outlives a terminated runner; then nobody waits for
// its results, so it ends, and with it the browser and, through the guard, the editor.
const end = () => process.exit(1);
process.once("disconnect", end);
process.once("SIGTERM", end);
