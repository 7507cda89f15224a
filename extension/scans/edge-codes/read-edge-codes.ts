/**
 * Reads the DX edge codes of 135 film (ISO 1007): two rows of bars along the film's edge that tell the film and, every
 * half frame, the frame's number. The only file that imports the barcode reader; its WebAssembly comes from our package.
 */
import { existsSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { prepareZXingModule, readBarcodes, type ReadResult } from "zxing-wasm/reader";
import { type CodedFilm, filmsOfCode } from "./film-names.ts";

/** One code on a scan. */
export interface EdgeCode {
  /** The film: product class and specifier, as in "36-2". */
  readonly film: string;
  /** Films that carry this code: none, one or several. */
  readonly names: readonly CodedFilm[];
  /** Number of the frame, halves for "A": 20.5 is 20A. Absent on codes without a number. */
  readonly frame?: number;
  /** Middle of the code in the picture that was read, pixels. */
  readonly centre: readonly [x: number, y: number];
  /** Unit vector along which the code is read. */
  readonly direction: readonly [x: number, y: number];
  /** Pixels per millimetre of film, from the code's length. */
  readonly pixelsPerMm: number;
}

/** A picture of grey levels, 0 … 255, row by row. */
export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** Modules of a code with and without a frame number (zxing-cpp's description of the format). */
const MODULES = { numbered: 31, plain: 23 };
/**
 * Millimetres of a module: on a published picture of an edge a numbered code spans 203 of the 264 pixels of half a frame,
 * which is 19.00 mm (zxing-cpp, test/samples/dxfilmedge-1/1.jpg).
 */
const MODULE = (203 / 264) * (19 / MODULES.numbered);

let ready: Promise<void> | undefined;

/** Codes on a picture, in any direction, as a mirror shows them too. */
export async function readEdgeCodes(picture: GreyPicture): Promise<EdgeCode[]> {
  ready ??= prepare();
  await ready;
  const { width, height } = picture;
  const image = { width, height, data: rgba(picture), colorSpace: "srgb" } as unknown as ImageData;
  const results = await readBarcodes(image, { formats: ["DXFilmEdge"], tryHarder: true, tryDownscale: false });
  const codes = await Promise.all(results.filter(({ isValid }) => isValid).map(codeOf));
  return codes.filter((code) => code !== undefined);
}

async function prepare(): Promise<void> {
  const beside = dirname(fileURLToPath(import.meta.url));
  const own = join(beside, "zxing_reader.wasm");
  const file = existsSync(own) ? own : createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm");
  const bytes = await readFile(file);
  const wasmBinary = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
  // Left to itself the package would ask the network for it.
  prepareZXingModule({ overrides: { wasmBinary, locateFile: () => file } });
}

async function codeOf({ text, position }: ReadResult): Promise<EdgeCode | undefined> {
  const parts = /^(\d+)-(\d+)(?:\/(\d+)(A?))?$/.exec(text);
  if (!parts) return undefined;
  const { topLeft, topRight, bottomLeft, bottomRight } = position;
  const start = [(topLeft.x + bottomLeft.x) / 2, (topLeft.y + bottomLeft.y) / 2] as const;
  const end = [(topRight.x + bottomRight.x) / 2, (topRight.y + bottomRight.y) / 2] as const;
  const length = Math.hypot(end[0] - start[0], end[1] - start[1]);
  if (!(length > 0)) return undefined;
  const film = `${Number(parts[1])}-${Number(parts[2])}`;
  const numbered = parts[3] !== undefined;
  return {
    film,
    names: await filmsOfCode(film),
    ...(numbered ? { frame: Number(parts[3]) + (parts[4] ? 0.5 : 0) } : {}),
    centre: [(start[0] + end[0]) / 2, (start[1] + end[1]) / 2],
    direction: [(end[0] - start[0]) / length, (end[1] - start[1]) / length],
    pixelsPerMm: length / (MODULE * (numbered ? MODULES.numbered : MODULES.plain)),
  };
}

function rgba({ data }: GreyPicture): Uint8ClampedArray {
  const out = new Uint8ClampedArray(4 * data.length);
  for (let i = 0; i < data.length; i++) {
    out.fill(data[i], 4 * i, 4 * i + 3);
    out[4 * i + 3] = 255;
  }
  return out;
}
