/**
 * ICC profiles of the model printer: version 4 output profiles of lookup tables (ICC.1:2010, 8.4.2; lut16Type, 10.10), with a
 * table for each rendering intent that differs plainly from the others.
 */
import { blackFor, inksFor, PAPER, printedLab, type Triple } from "./inks.ts";

export type ModelPrinter = "RGB" | "CMYK";

const DEVICE_STEPS = { RGB: 9, CMYK: 6 } as const;
const LAB_STEPS = 15;
const HEADER = 128;

const made = new Map<ModelPrinter, Uint8Array>();

/** The profile's bytes, the same on every call. */
export function modelProfile(printer: ModelPrinter): Uint8Array {
  let profile = made.get(printer);
  if (!profile) made.set(printer, (profile = makeProfile(printer)));
  return profile;
}

/** Inks of a device colour: an RGB printer's driver turns light into ink. */
const inksOf = (printer: ModelPrinter, device: readonly number[]): readonly number[] =>
  printer === "RGB" ? device.map((v) => 1 - v) : device;

/** What each intent aims at for a colour of the connection space, L* of the paper's black given. */
const AIMS: readonly ((lab: Triple, black: number) => Triple)[] = [
  // Perceptual: lightness fitted between the paper's white and black, chroma drawn in.
  ([l, a, b], black) => [black + (l * (100 - black)) / 100, 0.82 * a, 0.82 * b],
  // Media-relative colorimetric: the colour itself.
  (lab) => lab,
  // Saturation: chroma raised.
  ([l, a, b], black) => [black + (l * (100 - black)) / 100, 1.3 * a, 1.3 * b],
];

function makeProfile(printer: ModelPrinter): Uint8Array {
  const channels = printer.length;
  const black = printedLab(printer === "RGB" ? [1, 1, 1] : [1, 1, 1, 1])[0];
  const toLab = lut16(channels, 3, DEVICE_STEPS[printer], (device) => legacyLab(printedLab(inksOf(printer, device))));
  const residuals: number[] = [];
  const toDevice = AIMS.map((aim, intent) =>
    lut16(3, channels, LAB_STEPS, (node) => {
      const lab = aim(labOfNode(node), black);
      const inks = inksFor(lab, printer === "RGB" ? undefined : blackFor(lab[0]));
      if (intent === 1) {
        const found = printedLab(inks);
        residuals.push(Math.hypot(...found.map((v, i) => v - lab[i]!)));
      }
      return printer === "RGB" ? inks.map((v) => 1 - v) : inks;
    }),
  );
  let next = 0;
  const gamut = lut16(3, 1, LAB_STEPS, () => [residuals[next++]! > 2 ? 1 : 0]);
  return assemble(printer, [
    ["desc", text(`Model ${printer} printer on coated paper, for tests`)],
    ["cprt", text("No copyright, use freely; solids from FOGRA39L")],
    ["wtpt", xyz(PAPER)],
    ["A2B0", toLab],
    ["A2B1", toLab],
    ["A2B2", toLab],
    ["B2A0", toDevice[0]!],
    ["B2A1", toDevice[1]!],
    ["B2A2", toDevice[2]!],
    ["gamt", gamut],
  ]);
}

/** lut16Type holds Lab in the older encoding (10.10, Table 44): L* 100 is FF00h, a* and b* 0 are 8000h. */
const legacyLab = ([l, a, b]: Triple): number[] => [
  (l / 100) * (65280 / 65535),
  (a + 128) / (65535 / 256),
  (b + 128) / (65535 / 256),
];
const labOfNode = ([l, a, b]: readonly number[]): Triple => [
  (l! * 65535 * 100) / 65280,
  (a! * 65535) / 256 - 128,
  (b! * 65535) / 256 - 128,
];

/** A table with straight curves before and behind it; the first input varies slowest. */
function lut16(
  inputs: number,
  outputs: number,
  steps: number,
  at: (node: readonly number[]) => readonly number[],
): Uint8Array {
  const nodes = steps ** inputs;
  return typed("mft2", 44 + 2 * (2 * inputs + nodes * outputs + 2 * outputs), (view) => {
    [inputs, outputs, steps].forEach((value, i) => view.setUint8(8 + i, value));
    [1, 0, 0, 0, 1, 0, 0, 0, 1].forEach((value, i) => view.setInt32(12 + 4 * i, value * 65536));
    view.setUint16(48, 2);
    view.setUint16(50, 2);
    let place = 52;
    const put = (value: number): void => {
      view.setUint16(place, Math.round(65535 * Math.max(0, Math.min(1, value))));
      place += 2;
    };
    for (let i = 0; i < inputs; i++) [0, 1].forEach(put);
    for (let n = 0; n < nodes; n++) {
      const node = Array.from(
        { length: inputs },
        (_, i) => (Math.floor(n / steps ** (inputs - 1 - i)) % steps) / (steps - 1),
      );
      at(node).forEach(put);
    }
    for (let i = 0; i < outputs; i++) [0, 1].forEach(put);
  });
}

function assemble(printer: ModelPrinter, tags: readonly (readonly [name: string, data: Uint8Array])[]): Uint8Array {
  const placed = new Map<Uint8Array, number>();
  let end = HEADER + 4 + 12 * tags.length;
  for (const [, data] of tags) {
    if (placed.has(data)) continue;
    placed.set(data, end);
    end += Math.ceil(data.length / 4) * 4;
  }
  const profile = new Uint8Array(end);
  const view = new DataView(profile.buffer);
  view.setUint32(0, end);
  view.setUint32(8, 0x04300000);
  putText(profile, 12, `prtr${printer.padEnd(4)}Lab `);
  [2026, 1, 1, 0, 0, 0].forEach((part, i) => view.setUint16(24 + 2 * i, part));
  putText(profile, 36, "acsp");
  [0.9642, 1, 0.8249].forEach((value, i) => view.setInt32(68 + 4 * i, Math.round(value * 65536)));
  view.setUint32(HEADER, tags.length);
  tags.forEach(([name, data], i) => {
    putText(profile, HEADER + 4 + 12 * i, name);
    view.setUint32(HEADER + 8 + 12 * i, placed.get(data)!);
    view.setUint32(HEADER + 12 + 12 * i, data.length);
    profile.set(data, placed.get(data));
  });
  return profile;
}

function typed(kind: string, length: number, fill: (view: DataView, bytes: Uint8Array) => void): Uint8Array {
  const bytes = new Uint8Array(8 + length);
  putText(bytes, 0, kind);
  fill(new DataView(bytes.buffer), bytes);
  return bytes;
}

const xyz = (value: Triple): Uint8Array =>
  typed("XYZ ", 12, (view) => value.forEach((v, i) => view.setInt32(8 + 4 * i, Math.round(v * 65536))));

const text = (words: string): Uint8Array =>
  typed("mluc", 20 + 2 * words.length, (view, bytes) => {
    view.setUint32(8, 1);
    view.setUint32(12, 12);
    putText(bytes, 16, "enUS");
    view.setUint32(20, 2 * words.length);
    view.setUint32(24, 28);
    for (let i = 0; i < words.length; i++) view.setUint16(28 + 2 * i, words.charCodeAt(i));
  });

function putText(bytes: Uint8Array, at: number, words: string): void {
  for (let i = 0; i < words.length; i++) bytes[at + i] = words.charCodeAt(i);
}
