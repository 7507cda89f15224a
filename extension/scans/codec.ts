/**
 * The one door to sharp. Its native build is the fast one; under Electron on Linux it can bring the whole process
 * down (two copies of one system library), so there its WebAssembly build takes its place. ROLLBOOK_CODEC=wasm asks
 * for that build anywhere. Both are the same libvips and give the same bytes.
 */
import { createRequire } from "node:module";
import type { Sharp, SharpOptions } from "sharp";
import { JobError } from "../failure.ts";
import { MAX_PIXELS } from "./limits.ts";
import { explainSystem } from "./files/system-errors.ts";

export type { Sharp, SharpOptions as PictureOptions } from "sharp";

/** Starts a pipeline on encoded bytes, or on samples described by `options.raw`. */
export type OpenPicture = (input: Uint8Array | Uint16Array, options?: SharpOptions) => Sharp;

const WASM = "@img/sharp-wasm32/sharp.node";

let loaded: Promise<OpenPicture> | undefined;

/** @throws Error with a sentence on what to install, where no build can be loaded */
export function loadCodec(): Promise<OpenPicture> {
  loaded ??= load();
  return loaded;
}

async function load(): Promise<OpenPicture> {
  try {
    if (prefersWasm()) putWasmInPlaceOfNative();
    const { default: sharp } = await import("sharp");
    // Threads are the pool's business, and a cache would only hold pictures that are never asked for again.
    sharp.concurrency(1);
    sharp.cache(false);
    return (input, options) => sharp(input, { limitInputPixels: MAX_PIXELS, failOn: "error", ...options });
  } catch (error) {
    const systemFailure = explainSystem(error); // such as too many open files: installing again would not help
    if (systemFailure) {
      const message = `The image library sharp cannot be loaded. ${systemFailure.message}`;
      throw new JobError({ code: "codec", message, remedy: systemFailure.remedy });
    }
    const reason = error instanceof Error ? error.message.split("\n")[0] : String(error);
    throw new Error(
      `The image library sharp cannot be loaded (${reason}). Install Rollbook again for this computer: npm ci --include=optional.`,
      { cause: error },
    );
  }
}

/** Which build was loaded, and the versions of the libraries in it. */
export async function codecVersions(): Promise<{ build: "native" | "WebAssembly"; versions: Record<string, string> }> {
  await loadCodec();
  const { default: sharp } = await import("sharp");
  const versions = { ...sharp.versions } as Record<string, string>;
  return { build: prefersWasm() ? "WebAssembly" : "native", versions };
}

function prefersWasm(): boolean {
  if (process.env.ROLLBOOK_CODEC === "wasm") return true;
  return process.env.ROLLBOOK_CODEC !== "native" && process.platform === "linux" && "electron" in process.versions;
}

/**
 * sharp asks for this platform's native module first and has no setting for another: give it the WebAssembly module
 * under that name. Where the native one is not installed, sharp turns to WebAssembly by itself.
 */
function putWasmInPlaceOfNative(): void {
  const require = createRequire(createRequire(import.meta.url).resolve("sharp"));
  require(WASM);
  const libc = isMusl() ? "musl" : "";
  let native: string;
  try {
    native = require.resolve(`@img/sharp-${process.platform}${libc}-${process.arch}/sharp.node`);
  } catch {
    return;
  }
  require.cache[native] = require.cache[require.resolve(WASM)];
}

function isMusl(): boolean {
  if (process.platform !== "linux") return false;
  const report = process.report?.getReport() as { header?: { glibcVersionRuntime?: string } } | undefined;
  return report?.header?.glibcVersionRuntime === undefined;
}
