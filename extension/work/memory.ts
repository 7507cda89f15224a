/**
 * Gives memory back that nothing refers to any more. Scans and pictures are a hundred megabytes each and live outside
 * the collector's own heap, so that it sees little reason to run; the pool's process is started with the collector
 * exposed for this. It takes a few milliseconds. Without it (in tests) nothing happens.
 */
export function freeMemory(): void {
  (globalThis as { gc?: () => void }).gc?.();
}
