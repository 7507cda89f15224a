/** A worker that decodes and encodes and does nothing in between: what a render is measured against. */
import { describeError } from "../../extension/scans/files/system-errors.ts";
import { readFileSync } from "node:fs";
import { parentPort } from "node:worker_threads";
import type { Raster } from "../../extension/engine/types.ts";
import { writeAtomic } from "../../extension/scans/files/atomic.ts";
import { decodeScan } from "../../extension/scans/decode.ts";
import { encodePicture, type EncodeSpec } from "../../extension/scans/output/encode.ts";
import { freeMemory } from "../../extension/work/pool/scan-memory.ts";

export interface BareRequest {
  readonly scan: string;
  readonly pictures: readonly {
    /** Finished 16-bit samples, so that the encoder gets what it gets in a render. */
    readonly samples: string;
    readonly width: number;
    readonly height: number;
    readonly spec: EncodeSpec;
    readonly path: string;
  }[];
}

const port = parentPort;
port?.on("message", ({ id, value: { payload } }: { id: number; value: { payload: BareRequest } }) => {
  bare(payload).then(
    (value) => port.postMessage({ kind: "reply", id, value }),
    (error: unknown) => port.postMessage({ kind: "error", id, failure: describeError(error) }),
  );
});

/** Milliseconds that decoding, encoding and writing took; reading the samples back is left out. */
async function bare({ scan, pictures }: BareRequest): Promise<number> {
  freeMemory();
  let start = performance.now();
  await decodeScan(scan);
  let time = performance.now() - start;
  for (const { samples, width, height, spec, path } of pictures) {
    freeMemory();
    const bytes = readFileSync(samples);
    const data = new Uint16Array(bytes.buffer, bytes.byteOffset, bytes.length / 2);
    const picture: Raster<Uint16Array> = { width, height, channels: 3, data };
    start = performance.now();
    await writeAtomic(path, await encodePicture(picture, spec, {}));
    time += performance.now() - start;
  }
  return time;
}
