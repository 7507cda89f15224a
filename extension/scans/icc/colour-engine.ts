/**
 * Little CMS as WebAssembly, through the C functions of its build. Synchronous once loaded: run it in a worker thread.
 * Why this engine: docs/decisions/colour-engine.md.
 */
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

/** Handles are addresses in the module's memory; 0 means failure. */
export interface ColourEngine {
  readonly HEAPU8: Uint8Array;
  readonly HEAPU16: Uint16Array;
  readonly HEAPF32: Float32Array;
  _malloc(bytes: number): number;
  _free(address: number): void;
  _cmsOpenProfileFromMem(address: number, bytes: number): number;
  _cmsCreateLab4Profile(white: number): number;
  _cmsCloseProfile(profile: number): void;
  _cmsCreateTransform(
    from: number,
    fromFormat: number,
    to: number,
    toFormat: number,
    intent: number,
    flags: number,
  ): number;
  _cmsDeleteTransform(transform: number): void;
  _cmsDoTransform(transform: number, from: number, to: number, pixels: number): void;
}

let loaded: Promise<ColourEngine> | undefined;

/** The module, loaded once a thread and again after a failure. */
export function loadColourEngine(): Promise<ColourEngine> {
  loaded ??= load();
  return loaded;
}

/** Discards the module: after a failure inside it, its memory cannot be trusted. */
export function forgetColourEngine(): void {
  loaded = undefined;
}

async function load(): Promise<ColourEngine> {
  const folder = moduleFolder();
  const { instantiate } = (await import(/* @vite-ignore */ pathToFileURL(join(folder, "lcms.js")).href)) as {
    instantiate: (options: object) => Promise<ColourEngine>;
  };
  return instantiate({
    wasmBinary: await readFile(join(folder, "lcms.wasm")),
    print: () => {},
    printErr: () => {},
  });
}

/** Beside the bundle where there is one, else in the package. */
function moduleFolder(): string {
  const beside = dirname(fileURLToPath(import.meta.url));
  if (existsSync(join(beside, "lcms.wasm"))) return beside;
  return dirname(createRequire(import.meta.url).resolve("lcms-wasm"));
}
