/**
 * Decodes files one after the other in one thread, valid and damaged ones mixed, and prints what became of each. A
 * program of its own, so that a decoder that never returns can be ended.
 * Usage: node decode-in-turn.mjs ORDERS.json, a list of lists of paths; writes one JSON line for each file.
 */
import { createHash } from "node:crypto";
import { readFileSync, writeSync } from "node:fs";
import { decodeScan } from "../../../extension/scans/decode.ts";
import { loadLibRaw } from "../../../extension/scans/raw/libraw.ts";
import { readRaw } from "../../../extension/scans/raw/read-raw.ts";

/** What became of a file, at the decoder's door and, past all checks of ours, in LibRaw. */
export interface Turn {
  readonly path: string;
  /** SHA-256 of the scan's samples at half size, or the error. */
  readonly door: string;
  /** SHA-256 of the recorded numbers, or the error. */
  readonly libraw: string;
}

const MAX_PIXELS = 1e8;
const digest = ({ buffer, byteOffset, byteLength }: Uint16Array): string =>
  createHash("sha256")
    .update(new Uint8Array(buffer, byteOffset, byteLength))
    .digest("hex");
const errorOf = (error: unknown): string => (error instanceof Error ? `${error.name}: ${error.message}` : "error");

async function libraw(path: string): Promise<string> {
  const raw = readRaw(await loadLibRaw(), new Uint8Array(readFileSync(path)), MAX_PIXELS);
  return digest(raw.kind === "mosaic" ? raw.mosaic.data : raw.picture.data);
}

const orders = JSON.parse(readFileSync(process.argv[2], "utf8")) as string[][];
for (const path of orders.flat()) {
  const inLibRaw = await libraw(path).catch(errorOf);
  const door = await decodeScan(path, { half: true }).then(({ scan }) => digest(scan.data), errorOf);
  writeSync(1, `${JSON.stringify({ path, door, libraw: inLibRaw } satisfies Turn)}\n`);
}
