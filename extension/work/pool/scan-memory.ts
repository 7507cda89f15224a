/**
 * Gives memory back that nothing refers to any more. Scans and pictures are a hundred megabytes each and live outside
 * the collector's own heap, so that it sees little reason to run; the pool's process is started with the collector
 * exposed for this. It takes a few milliseconds. Without it (in tests) nothing happens.
 */
export function freeMemory(): void {
  (globalThis as { gc?: () => void }).gc?.();
}

/** Milliseconds that a scan's memory is kept for the next frame. */
const RELEASE_DELAY = 5000;
let kept: Uint16Array | undefined;
let forgetting: NodeJS.Timeout | undefined;

/**
 * Memory for a scan's samples: the last frame's, where it has the size. The system clears what it newly gives, which
 * takes as long as a tenth of a frame's drawing.
 */
export function takeScanMemory(samples: number): Uint16Array {
  const found = kept?.length === samples ? kept : new Uint16Array(samples);
  kept = undefined;
  return found;
}

/** Keeps a scan's memory for the next frame. Nothing may refer to it any more. */
export function keepScanMemory(data: Uint16Array): void {
  kept = data;
  clearTimeout(forgetting);
  forgetting = setTimeout(() => (kept = undefined), RELEASE_DELAY).unref();
}
