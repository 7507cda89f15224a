/** Conversions between profiles through the colour engine, with the intents of ISO 15076-1. */
import { basename } from "node:path";
import { type ColourEngine, forgetColourEngine, loadColourEngine } from "./colour-engine.ts";
import { NAME_ANOTHER, profileError } from "./profile.ts";

export type RenderingIntent = "perceptual" | "relative-colorimetric" | "saturation" | "absolute-colorimetric";

/** One side of a conversion: a device by its profile, or CIELAB under D50. */
export type Side = { readonly profile: Uint8Array; readonly channels: 1 | 3 | 4; readonly file?: string } | "lab";

export interface TransformOptions {
  readonly from: Side;
  readonly to: Side;
  readonly intent: RenderingIntent;
  /** Scale black to black (ISO 18619). Without effect on the absolute intent. */
  readonly compensate: boolean;
  /** Work through every step for every colour, instead of through a table of 49 steps a side; six times slower. */
  readonly exact?: boolean;
}

/**
 * Converts colours. Device values are 0 … 65535, ink 0 none; Lab is L* 0 … 100, a*, b* as floats. Both arrays are
 * interleaved and hold the same number of colours.
 */
export type Convert<From extends Uint16Array | Float32Array, To extends Uint16Array | Float32Array> = (
  from: From,
  to: To,
) => void;

/** ISO 15076-1, Table 23. */
const INTENTS: Readonly<Record<RenderingIntent, number>> = {
  perceptual: 0,
  "relative-colorimetric": 1,
  saturation: 2,
  "absolute-colorimetric": 3,
};
const FLAG = { exact: 0x0100, fineTable: 0x0400, compensate: 0x2000 } as const;
/** The engine's codes of pixel layouts: colour space << 16, channels << 3, bytes; bit 22 for floats. */
const FORMATS = {
  1: (3 << 16) | (1 << 3) | 2,
  3: (4 << 16) | (3 << 3) | 2,
  4: (6 << 16) | (4 << 3) | 2,
  lab: (1 << 22) | (10 << 16) | (3 << 3) | 4,
} as const;
/** Colours that are converted at a time. */
const CHUNK = 1 << 16;
/** Bytes of a colour in either buffer at the most: four channels of 16 bits, or three floats. */
const MAX_COLOUR = 12;

/**
 * Opens a conversion, hands it to `use`, and gives its memory back.
 * @throws JobError "profile" where a profile cannot be used, and names it
 */
export async function withTransform<Value>(
  options: TransformOptions,
  use: (convert: Convert<Uint16Array | Float32Array, Uint16Array | Float32Array>) => Value,
): Promise<Value> {
  const engine = await loadColourEngine();
  const file = [options.to, options.from].flatMap((side) => (side === "lab" || !side.file ? [] : [side.file]))[0] ?? "";
  const unusable = () =>
    profileError(
      file,
      `${basename(file)} cannot be used: it lacks what a conversion to a printer's colours needs, or is damaged.`,
      NAME_ANOTHER,
    );
  let open: OpenTransform | undefined;
  try {
    try {
      open = openTransform(engine, options);
    } catch (error) {
      // A fault inside the engine: its memory is lost with it.
      if (error instanceof WebAssembly.RuntimeError || error instanceof RangeError) {
        forgetColourEngine();
        throw unusable();
      }
      throw error;
    }
    if (!open) throw unusable();
    const { convert } = open;
    return use(convert);
  } catch (error) {
    if (error instanceof WebAssembly.RuntimeError) {
      forgetColourEngine();
      open = undefined;
      throw unusable();
    }
    throw error;
  } finally {
    open?.close();
  }
}

interface OpenTransform {
  readonly convert: Convert<Uint16Array | Float32Array, Uint16Array | Float32Array>;
  close(): void;
}

function openTransform(engine: ColourEngine, { from, to, intent, compensate, exact }: TransformOptions) {
  const profiles = [openProfile(engine, from), openProfile(engine, to)];
  const [first, second] = profiles as [number, number];
  const flags = (compensate ? FLAG.compensate : 0) | (exact ? FLAG.exact : FLAG.fineTable);
  const transform =
    first && second
      ? engine._cmsCreateTransform(first, formatOf(from), second, formatOf(to), INTENTS[intent], flags)
      : 0;
  for (const profile of profiles) if (profile) engine._cmsCloseProfile(profile);
  return transform ? buffered(engine, transform, channelsOf(from), channelsOf(to)) : undefined;
}

function buffered(engine: ColourEngine, transform: number, inWidth: number, outWidth: number): OpenTransform {
  const input = engine._malloc(CHUNK * MAX_COLOUR);
  const output = engine._malloc(CHUNK * MAX_COLOUR);
  /** The engine's memory may have moved since the last look. */
  const at = (address: number, like: Uint16Array | Float32Array) =>
    like instanceof Uint16Array
      ? engine.HEAPU16.subarray(address / 2, address / 2 + CHUNK * 4)
      : engine.HEAPF32.subarray(address / 4, address / 4 + CHUNK * 3);
  return {
    convert(from, to) {
      const count = from.length / inWidth;
      for (let done = 0; done < count; done += CHUNK) {
        const pixels = Math.min(CHUNK, count - done);
        at(input, from).set(from.subarray(done * inWidth, (done + pixels) * inWidth));
        engine._cmsDoTransform(transform, input, output, pixels);
        to.set(at(output, to).subarray(0, pixels * outWidth), done * outWidth);
      }
    },
    close() {
      engine._free(input);
      engine._free(output);
      engine._cmsDeleteTransform(transform);
    },
  };
}

function openProfile(engine: ColourEngine, side: Side): number {
  if (side === "lab") return engine._cmsCreateLab4Profile(0);
  const { profile } = side;
  const address = engine._malloc(profile.length);
  engine.HEAPU8.set(profile, address);
  // The engine keeps a copy of its own.
  const handle = engine._cmsOpenProfileFromMem(address, profile.length);
  engine._free(address);
  return handle;
}

const formatOf = (side: Side): number => FORMATS[side === "lab" ? "lab" : side.channels];
const channelsOf = (side: Side): number => (side === "lab" ? 3 : side.channels);
