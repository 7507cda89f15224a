/** Writes a scan of the witness as the camera would: a DNG with its mosaic and notes. */
import type { Scan } from "./camera.ts";
import type { Matrix } from "../spectra/colour.ts";
import { BGGR, GBRG, GRBG, RGGB, writeDng, type DngOptions } from "../raw/dng.ts";

const PATTERNS = { RGGB, GBRG, GRBG, BGGR };

/**
 * @param time as EXIF writes it, "YYYY:MM:DD HH:MM:SS"
 * @param colourMatrix of the camera (`colourMatrixOf`), where what is tested may heed it; else that of another sensor
 */
export function dngOf(
  scan: Scan,
  time: string,
  compression: DngOptions["compression"] = "jpeg",
  colourMatrix?: Matrix,
): Uint8Array {
  const { meta, truth } = scan;
  const green = truth.bare[1];
  return writeDng({
    width: scan.width,
    height: scan.height,
    data: scan.mosaic,
    pattern: PATTERNS[scan.cfa],
    bits: 16,
    compression,
    black: scan.black,
    white: scan.white,
    make: meta.make,
    model: meta.model,
    colourMatrix: colourMatrix?.flat(),
    neutral: [truth.bare[0] / green, 1, truth.bare[2] / green],
    exif: { shutter: meta.shutter, aperture: meta.aperture, iso: meta.iso, lens: meta.lens, time },
  });
}
