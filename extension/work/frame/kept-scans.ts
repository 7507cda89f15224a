/**
 * Half-size scans that a worker keeps from its first look at a file to its second, so that the file is decoded once. Each
 * worker has its own: the pool hands it the jobs about the files that it has seen (`RunOptions.near`).
 */
import { statSync } from "node:fs";
import { type DecodedScan, decodeScan } from "../../scans/decode.ts";

interface KeptScan {
  readonly decoded: DecodedScan;
  readonly size: number;
  readonly mtimeMs: number;
}

const kept = new Map<string, KeptScan>();
let bytes = 0;
let expiry: NodeJS.Timeout | undefined;

/** Milliseconds after the last scan was kept until all are let go: whoever wanted them has stopped. */
const LIFE = 120_000;

/**
 * Decodes a scan at half size, and keeps it where `limit` bytes hold it beside those that are kept already.
 * @throws ScanError
 */
export async function decodeAndKeep(path: string, limit: number): Promise<DecodedScan> {
  letGo(path);
  // Looked at before it is read: a file that changes meanwhile does not match.
  const before = stampOf(path);
  const decoded = await decodeScan(path, { half: true });
  const needed = decoded.scan.data.byteLength;
  if (before && bytes + needed <= limit) {
    kept.set(path, { decoded, ...before });
    bytes += needed;
    clearTimeout(expiry);
    expiry = setTimeout(letAllGo, LIFE);
    expiry.unref();
  }
  return decoded;
}

/**
 * A scan at half size: the one that was kept, which is let go, where the file is still the same; else decoded.
 * @throws ScanError
 */
export async function takeOrDecode(path: string): Promise<DecodedScan> {
  const found = kept.get(path);
  letGo(path);
  const now = found && stampOf(path);
  if (found && now && now.size === found.size && now.mtimeMs === found.mtimeMs) return found.decoded;
  return decodeScan(path, { half: true });
}

function letGo(path: string): void {
  bytes -= kept.get(path)?.decoded.scan.data.byteLength ?? 0;
  kept.delete(path);
}

function letAllGo(): void {
  kept.clear();
  bytes = 0;
}

function stampOf(path: string): { readonly size: number; readonly mtimeMs: number } | undefined {
  const found = statSync(path, { throwIfNoEntry: false });
  return found && { size: found.size, mtimeMs: found.mtimeMs };
}
