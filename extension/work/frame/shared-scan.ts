/**
 * The scan that a worker has unpacked last, for the frames on it that follow: a strip of film is read and unpacked once,
 * and each of its frames is made of the part that it needs. Each worker has its own; the pool hands it the frames of the
 * scan that it has worked on (`RunOptions.near`).
 */
import { type DecodedScan, decodeScan, scanOfUnpacked, unpackScan, type UnpackedScan } from "../../scans/decode.ts";
import { stampOf } from "../files/content-hash.ts";

interface SharedScan {
  readonly path: string;
  /** Of the file, before it was read. */
  readonly stamp: string;
  /** Rejects where the file cannot be used: its other frames need not try. */
  readonly unpacked: Promise<UnpackedScan>;
}

let shared: SharedScan | undefined;
let expiry: NodeJS.Timeout | undefined;

/** Milliseconds without a frame of the scan until it is let go: whoever wanted them has stopped. */
const LIFE = 5000;

/**
 * Returns what decodes a scan that several frames lie on. It gives what `decodeScan` gives, byte for byte.
 * @param keep whether further frames of the scan follow; absent for a scan of one frame, which is decoded and not kept
 */
export function sharedDecoder(keep: boolean | undefined): typeof decodeScan {
  return keep === undefined ? decodeScan : (path, options) => decodeShared(path, options, keep);
}

async function decodeShared(
  path: string,
  options: Parameters<typeof decodeScan>[1],
  keep: boolean,
): Promise<DecodedScan> {
  const stamp = stampOf(path);
  const isSame = shared?.path === path && shared.stamp === stamp;
  const { unpacked } = isSame ? shared! : { unpacked: unpackScan(path) };
  letGo();
  if (keep) {
    shared = { path, stamp, unpacked };
    expiry = setTimeout(letGo, LIFE).unref();
  }
  return scanOfUnpacked(await unpacked, options, keep);
}

function letGo(): void {
  clearTimeout(expiry);
  shared = undefined;
}
