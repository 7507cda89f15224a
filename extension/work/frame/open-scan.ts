/** Decodes a scan as the roll's frames use it: the faults of its lens corrected. */
import { correctionReach, correctLens, correctMosaic, type ScanRegion } from "../../engine/lens/correct.ts";
import type { LensFaults } from "../../engine/types.ts";
import { type DecodedScan, type DecodeOptions, decodeScan } from "../../scans/decode.ts";

/**
 * Decodes a scan and corrects its lens's faults. Whatever a recipe states in pixels or fractions of a scan, areas,
 * spots, joins, readings, is about this scan.
 * @param faults the recipe's; without any the scan is as it was decoded
 * @param decode decodes the file, where it is not decoded for this frame alone
 * @throws ScanError as `decodeScan`
 */
export async function openScan(
  path: string,
  faults: LensFaults | undefined,
  options: DecodeOptions = {},
  decode: typeof decodeScan = decodeScan,
): Promise<DecodedScan> {
  if (!faults) return decode(path, options);
  const { lateral, ...others } = faults;
  let rest: LensFaults = faults;
  let wanted: ScanRegion | undefined;
  const { part } = options;
  const decoded = await decode(path, {
    ...options,
    ...(part && {
      part: (width, height) => {
        wanted = part(width, height);
        return grown(wanted, correctionReach(faults, { width, height }), { width, height });
      },
    }),
    ...(lateral && {
      beforeDemosaic: (mosaic) => {
        correctMosaic(mosaic, lateral);
        rest = others;
      },
    }),
  });
  return corrected(decoded, rest, wanted);
}

/** A decoded scan with its lens's faults corrected, in place. */
export function corrected(decoded: DecodedScan, faults: LensFaults | undefined, region?: ScanRegion): DecodedScan {
  if (faults) correctLens(decoded.scan, faults, region);
  return decoded;
}

function grown(
  { left, top, width, height }: ScanRegion,
  by: number,
  size: { readonly width: number; readonly height: number },
): ScanRegion {
  const [x0, y0] = [Math.max(0, left - by), Math.max(0, top - by)];
  const [x1, y1] = [Math.min(size.width, left + width + by), Math.min(size.height, top + height + by)];
  return { left: x0, top: y0, width: x1 - x0, height: y1 - y0 };
}
