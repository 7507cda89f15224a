/** Reads how an ICC profile's numbers relate to light, so that encoded pictures can be made linear again. */

/** Decoded light of a number 0 … 1. */
export type Transfer = (encoded: number) => number;

export const linearTransfer: Transfer = (v) => v;

const TAG_TABLE = 128;
/** Parameter counts of parametric curve types 0 … 4 (ICC.1:2010 §10.16). */
const PARAMETERS = [1, 3, 4, 5, 7];

/**
 * Red, green and blue (or three times grey) transfer functions of a profile.
 * @returns undefined where the profile is damaged or made of tables through another space
 */
export function profileTransfer(profile: Uint8Array): readonly [Transfer, Transfer, Transfer] | undefined {
  try {
    const tags = readTags(profile);
    const grey = tags.get("kTRC");
    const curves = ["rTRC", "gTRC", "bTRC"].map((name) => tags.get(name) ?? grey);
    if (tags.has("A2B0") || curves.some((curve) => curve === undefined)) return undefined;
    const [red, green, blue] = (curves as DataView[]).map(readCurve);
    return red && green && blue ? [red, green, blue] : undefined;
  } catch (error) {
    if (error instanceof RangeError) return undefined; // an offset beyond the profile's end
    throw error;
  }
}

function readTags(profile: Uint8Array): Map<string, DataView> {
  const view = new DataView(profile.buffer, profile.byteOffset, profile.byteLength);
  const tags = new Map<string, DataView>();
  const count = Math.min(view.getUint32(TAG_TABLE), 100);
  for (let i = 0; i < count; i++) {
    const entry = TAG_TABLE + 4 + 12 * i;
    const name = signature(view, entry);
    tags.set(
      name,
      new DataView(profile.buffer, profile.byteOffset + view.getUint32(entry + 4), view.getUint32(entry + 8)),
    );
  }
  return tags;
}

function readCurve(tag: DataView): Transfer | undefined {
  const kind = signature(tag, 0);
  if (kind === "curv") return readSampledCurve(tag);
  return kind === "para" ? readParametricCurve(tag) : undefined;
}

function readSampledCurve(tag: DataView): Transfer {
  const count = tag.getUint32(8);
  if (count === 0) return linearTransfer;
  if (count === 1) {
    const gamma = tag.getUint16(12) / 256;
    return (v) => v ** gamma;
  }
  const samples = Float64Array.from({ length: count }, (_, i) => tag.getUint16(12 + 2 * i) / 65535);
  return (v) => {
    const place = v * (count - 1);
    const left = Math.min(count - 2, Math.floor(place));
    return samples[left] + (samples[left + 1] - samples[left]) * (place - left);
  };
}

function readParametricCurve(tag: DataView): Transfer | undefined {
  const kind = tag.getUint16(8);
  const count = PARAMETERS[kind];
  if (count === undefined) return undefined;
  const read = Array.from({ length: count }, (_, i) => tag.getInt32(12 + 4 * i) / 65536);
  const [g, a = 1, b = 0, c = 0, d = 0, e = 0, f = 0] = read;
  switch (kind) {
    case 0:
      return (v) => v ** g;
    case 1:
      return (v) => (v >= -b / a ? (a * v + b) ** g : 0);
    case 2:
      return (v) => (v >= -b / a ? (a * v + b) ** g + c : c);
    default:
      return (v) => (v >= d ? (a * v + b) ** g + e : c * v + f);
  }
}

function signature(view: DataView, at: number): string {
  return String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));
}
