/** What was found on one scan of a new roll, or on one of several pictures on it. */
import type { FoundBase } from "../../../engine/detect/base.ts";
import type { FoundFrame } from "../../../engine/detect/frame.ts";
import type { DensityMap } from "../../../engine/detect/overlap.ts";
import type { GrainPrint } from "../../../engine/detect/same-film.ts";
import type { Rgb } from "../../../engine/types.ts";
import type { EdgeCode } from "../../../scans/edge-codes/read-edge-codes.ts";

export interface FoundPicture {
  readonly flare?: Rgb;
  readonly base?: FoundBase;
  readonly frame?: FoundFrame;
  /** Transmittance of the picture's squares (balance.ts), of the whole scan where no picture was found. */
  readonly sample: Float32Array;
  readonly map: DensityMap;
  /** Codes on the film's edge; positions in fractions of the scan's width and height, `pixelsPerMm` in widths. */
  readonly codes: readonly EdgeCode[];
  /** Of one scan: by it the same piece of film is recognised on another. */
  readonly grain?: GrainPrint;
  readonly warnings: readonly string[];
  /** Where the scan shows several pictures: each of them, in order along the film; then there is no `frame`. */
  readonly parts?: readonly FoundPicture[];
}
