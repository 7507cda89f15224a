/** Small copies of scans for previews: as a file's bytes, and by way of the cache. */
import { createHash } from "node:crypto";
import type { LinearScan, ScanInfo } from "../engine/types.ts";
import type { ByteCache } from "./files/cache.ts";
import { type DecodedScan, decodeScan } from "./decode.ts";
import type { ScanWarning } from "./errors.ts";
import { rememberedFingerprint } from "./files/remembered-fingerprint.ts";
import { halveScan } from "./raw/to-scan.ts";

/** Times that a proxy's sides are shorter than the scan's. */
export type Reduction = 2 | 4;

/** Raise it when decoding or the layout below changes: old proxies are then not found any more. */
const VERSION = 2;
const MAGIC = "ROLLPRXY";
/**
 * Magic; the description's length (4 bytes); SHA-256 of everything else. Then the description, and at the next
 * multiple of 8 the samples.
 */
const PREFIX = 44;
const DIGEST_AT = 12;

interface Description {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly black: number;
  readonly scale: number;
  readonly info: ScanInfo;
  readonly warnings: readonly ScanWarning[];
  readonly about?: unknown;
}

/**
 * A reduced scan: from the cache where a scan of the same content was reduced before, else decoded and kept.
 * `info` has the full size.
 * @throws ScanError as `decodeScan`
 */
export async function readProxy(path: string, reduction: Reduction, cache: ByteCache): Promise<DecodedScan> {
  const { sha256 } = await rememberedFingerprint(path);
  const key = `${sha256.slice(0, 40)}-${reduction}-${VERSION}`;
  const kept = await cache.read(key);
  const proxy = kept && parseProxy(kept);
  if (proxy) return proxy;
  const decoded = await decodeScan(path, { half: true });
  const made = reduction === 2 ? decoded : { ...decoded, scan: halveScan(decoded.scan) };
  await cache.write(key, proxyBytes(made));
  return made;
}

/** @param about anything more that is to be known of it, as plain data */
export function proxyBytes({ scan, info, warnings }: DecodedScan, about?: unknown): Uint8Array {
  const { width, height, channels, black, scale } = scan;
  const samples = new Uint8Array(scan.data.buffer, scan.data.byteOffset, scan.data.byteLength);
  const description: Description = { width, height, channels, black, scale, info, warnings, about };
  const json = new TextEncoder().encode(JSON.stringify(description));
  const start = align8(PREFIX + json.length);
  const bytes = new Uint8Array(start + samples.length);
  bytes.set(new TextEncoder().encode(MAGIC));
  new DataView(bytes.buffer).setUint32(MAGIC.length, json.length, true);
  bytes.set(json, PREFIX);
  bytes.set(samples, start);
  bytes.set(digest(bytes), DIGEST_AT);
  return bytes;
}

/** @returns undefined where anything is not as it was written */
export function parseProxy(bytes: Uint8Array): (DecodedScan & { readonly about?: unknown }) | undefined {
  if (bytes.length < PREFIX || new TextDecoder().decode(bytes.subarray(0, MAGIC.length)) !== MAGIC) return undefined;
  if (!digest(bytes).equals(bytes.subarray(DIGEST_AT, PREFIX))) return undefined;
  const length = new DataView(bytes.buffer, bytes.byteOffset).getUint32(MAGIC.length, true);
  const json = new TextDecoder().decode(bytes.subarray(PREFIX, PREFIX + length));
  const { info, warnings, about, ...picture } = JSON.parse(json) as Description;
  const samples = bytes.subarray(align8(PREFIX + length));
  const aligned = samples.byteOffset % 2 === 0 ? samples : samples.slice();
  const data = new Uint16Array(aligned.buffer, aligned.byteOffset, aligned.length / 2);
  const scan: LinearScan = { ...picture, data };
  return { scan, info, warnings, about };
}

function digest(bytes: Uint8Array): Buffer {
  return createHash("sha256").update(bytes.subarray(0, DIGEST_AT)).update(bytes.subarray(PREFIX)).digest();
}

function align8(n: number): number {
  return (n + 7) & ~7;
}
