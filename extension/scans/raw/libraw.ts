/**
 * LibRaw as WebAssembly, loaded without the package's browser front end (that one starts a browser Worker).
 * Everything in this folder is synchronous once the module is loaded: run it in a worker thread.
 */
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

/** LibRaw settings by the names of its wrapper. */
export interface LibRawSettings {
  readonly [name: string]: number | boolean | readonly number[];
}

/** The part of LibRaw's metadata that is read. Sizes and margins are those of the sensor, not turned. */
export interface LibRawMetadata {
  readonly raw_width: number;
  readonly raw_height: number;
  readonly iwidth: number;
  readonly iheight: number;
  readonly top_margin: number;
  readonly left_margin: number;
  /** Bit mask of a 2-column filter arrangement; 9 means a 6 × 6 one; 0 none. */
  readonly filters: number;
  readonly colors: number;
  readonly cdesc: string;
  readonly dng_version: number;
  readonly camera_make: string;
  readonly camera_model: string;
  readonly iso_speed: number;
  readonly shutter: number;
  readonly aperture: number;
  readonly focal_len: number;
  /** Seconds: the camera's wall-clock time read as if in this computer's time zone. */
  readonly timestamp: number;
  readonly lens?: { readonly Lens?: string; readonly makernotes?: { readonly Lens?: string } };
  readonly color_data: {
    readonly black: number;
    readonly maximum: number;
    readonly raw_bps: number;
    /** XYZ under D65 to camera, a row for each of red, green, blue, second green; zeros where the model is not known. */
    readonly cam_xyz?: readonly (readonly number[])[];
  };
  readonly nikon?: { readonly NEFCompression?: number };
}

interface LibRawPicture {
  readonly width: number;
  readonly height: number;
  readonly colors: number;
  readonly data: Uint16Array;
}

interface LibRawMosaic {
  readonly raw_width: number;
  readonly raw_height: number;
  readonly data: Uint16Array;
}

/** One file. Settings persist from one `open` to the next, so every file gets an object of its own. */
export interface LibRawFile {
  open(bytes: Uint8Array, settings: LibRawSettings): void;
  metadata(full: boolean): LibRawMetadata;
  /** Must come before `rawImageData`; the other order gives garbage without an error. */
  imageData(): LibRawPicture;
  rawImageData(): LibRawMosaic | undefined;
  delete(): void;
}

export interface LibRaw {
  readonly LibRaw: new () => LibRawFile;
  /** Lines that LibRaw wrote about the file being read; its exceptions say nothing. */
  readonly libRawMessages: string[];
}

let loaded: Promise<LibRaw> | undefined;

/** The module, loaded once a thread and again after a failure. Its memory grows with the largest file and is never given back. */
export function loadLibRaw(): Promise<LibRaw> {
  loaded ??= load();
  return loaded;
}

/** Discards the module: after any failure its memory cannot be trusted. The next file gets a new one, in about 20 ms. */
export function forgetLibRaw(): void {
  loaded = undefined;
}

async function load(): Promise<LibRaw> {
  const folder = moduleFolder();
  const { default: factory } = (await import(/* @vite-ignore */ pathToFileURL(join(folder, "libraw.js")).href)) as {
    default: (options: object) => Promise<{ LibRaw: LibRaw["LibRaw"] }>;
  };
  const libRawMessages: string[] = [];
  const module = await factory({
    wasmBinary: await readFile(join(folder, "libraw.wasm")),
    locateFile: (name: string) => join(folder, name),
    print: () => {},
    printErr: (line: string) => libRawMessages.push(line),
  });
  return { LibRaw: module.LibRaw, libRawMessages };
}

/** Beside the bundle where there is one, else in the package. */
function moduleFolder(): string {
  const beside = dirname(fileURLToPath(import.meta.url));
  if (existsSync(join(beside, "libraw.wasm"))) return beside;
  return dirname(createRequire(import.meta.url).resolve("libraw-wasm"));
}
