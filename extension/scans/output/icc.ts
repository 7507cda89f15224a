/**
 * ICC profiles of the output spaces, written from the same primaries and curves that pictures are rendered with
 * (ICC.1:2010, version 4.3, matrix/TRC display profiles and grey profiles). Same input, same bytes: the date is fixed.
 */
import { adaptation, xyzOf } from "../../engine/colour/adaptation.ts";
import { SPACES, toD50 } from "../../engine/colour/spaces.ts";
import type { Matrix3, OutputSpace, Rgb } from "../../engine/types.ts";

const HEADER = 128;
/** The connection space's white as the header must state it, ICC.1:2010 §7.2.16. */
const ILLUMINANT: Rgb = [0.9642, 1, 0.8249];
const COPYRIGHT = "No copyright, use freely";

const NAMES: Record<OutputSpace, string> = {
  srgb: "sRGB IEC 61966-2-1",
  p3: "Display P3",
  adobe: "Adobe RGB (1998) compatible",
  romm: "ROMM RGB ISO 22028-2",
};

/**
 * Parameters of ICC.1:2010 §10.16: Y = (a·X + b)^g for X ≥ d, c·X below; one parameter is a plain power. The linear
 * part of ROMM ends at 16 · 1/512 = 1/32.
 */
const CURVES: Record<OutputSpace, readonly number[]> = {
  srgb: [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045],
  p3: [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045],
  adobe: [563 / 256],
  romm: [1.8, 1, 0, 1 / 16, 1 / 32],
};

/** Profile bytes for pictures of three channels, or of one with the same curve. */
export function iccProfile(space: OutputSpace, channels: 1 | 3): Uint8Array {
  const name = channels === 3 ? NAMES[space] : `Grey, curve of ${NAMES[space]}`;
  const white = xyzOf(...SPACES[space].white);
  const curve = parametricCurve(CURVES[space]);
  const tags: [name: string, data: Uint8Array][] = [
    ["desc", localisedText(name)],
    ["cprt", localisedText(COPYRIGHT)],
    ["wtpt", xyz(ILLUMINANT)],
    ["chad", fixedArray(adaptation(white, ILLUMINANT))],
  ];
  if (channels === 1) tags.push(["kTRC", curve]);
  else {
    const columns = columnsOf(toD50(SPACES[space]));
    (["rXYZ", "gXYZ", "bXYZ"] as const).forEach((tag, i) => tags.push([tag, xyz(columns[i])]));
    for (const tag of ["rTRC", "gTRC", "bTRC"]) tags.push([tag, curve]);
  }
  return assemble(channels === 3 ? "RGB " : "GRAY", tags);
}

/** Columns scaled so that their sum is the header's white exactly: device white must map to the media white. */
function columnsOf(matrix: Matrix3): readonly [Rgb, Rgb, Rgb] {
  const scale = ILLUMINANT.map((w, row) => w / (matrix[row][0] + matrix[row][1] + matrix[row][2]));
  const column = (c: 0 | 1 | 2): Rgb => [matrix[0][c] * scale[0], matrix[1][c] * scale[1], matrix[2][c] * scale[2]];
  return [column(0), column(1), column(2)];
}

/** Header, tag table and tag data; equal data are stored once. */
function assemble(colourSpace: string, tags: readonly [string, Uint8Array][]): Uint8Array {
  const table = 4 + 12 * tags.length;
  const placed = new Map<Uint8Array, number>();
  let end = HEADER + table;
  for (const [, data] of tags) {
    if (placed.has(data)) continue;
    placed.set(data, end);
    end += Math.ceil(data.length / 4) * 4;
  }
  const profile = new Uint8Array(end);
  const view = new DataView(profile.buffer);
  writeHeader(profile, view, colourSpace);
  view.setUint32(HEADER, tags.length);
  tags.forEach(([name, data], i) => {
    const entry = HEADER + 4 + 12 * i;
    putText(profile, entry, name);
    view.setUint32(entry + 4, placed.get(data)!);
    view.setUint32(entry + 8, data.length);
    profile.set(data, placed.get(data));
  });
  return profile;
}

function writeHeader(profile: Uint8Array, view: DataView, colourSpace: string): void {
  view.setUint32(0, profile.length);
  view.setUint32(8, 0x04300000); // version 4.3
  putText(profile, 12, `mntr${colourSpace}XYZ `);
  [2026, 1, 1, 0, 0, 0].forEach((part, i) => view.setUint16(24 + 2 * i, part));
  putText(profile, 36, "acsp");
  ILLUMINANT.forEach((value, i) => view.setInt32(68 + 4 * i, fixed(value)));
}

function xyz(value: Rgb): Uint8Array {
  return typed("XYZ ", 12, (view) => value.forEach((v, i) => view.setInt32(8 + 4 * i, fixed(v))));
}

function fixedArray(matrix: Matrix3): Uint8Array {
  return typed("sf32", 36, (view) => matrix.flat().forEach((v, i) => view.setInt32(8 + 4 * i, fixed(v))));
}

function parametricCurve(parameters: readonly number[]): Uint8Array {
  return typed("para", 4 + 4 * parameters.length, (view) => {
    view.setUint16(8, parameters.length === 1 ? 0 : 3);
    parameters.forEach((v, i) => view.setInt32(12 + 4 * i, fixed(v)));
  });
}

function localisedText(text: string): Uint8Array {
  const start = 28;
  return typed("mluc", start - 8 + 2 * text.length, (view, bytes) => {
    view.setUint32(8, 1);
    view.setUint32(12, 12);
    putText(bytes, 16, "enUS");
    view.setUint32(20, 2 * text.length);
    view.setUint32(24, start);
    for (let i = 0; i < text.length; i++) view.setUint16(start + 2 * i, text.charCodeAt(i));
  });
}

/** Tag data: four letters, four zero bytes, then `length` bytes that `fill` writes. */
function typed(kind: string, length: number, fill: (view: DataView, bytes: Uint8Array) => void): Uint8Array {
  const bytes = new Uint8Array(8 + length);
  putText(bytes, 0, kind);
  fill(new DataView(bytes.buffer), bytes);
  return bytes;
}

/** s15Fixed16Number. */
function fixed(value: number): number {
  return Math.round(value * 65536);
}

function putText(bytes: Uint8Array, at: number, text: string): void {
  for (let i = 0; i < text.length; i++) bytes[at + i] = text.charCodeAt(i);
}
