/** The words of the engine: shapes and units that every room shares. Types only. */

/** Three channels, red, green, blue. */
export type Rgb = readonly [number, number, number];

/** 3×3 matrix, row-major: rows are outputs, columns are inputs. */
export type Matrix3 = readonly [Rgb, Rgb, Rgb];

/** Interleaved samples, row by row from the top left. `data.length === width * height * channels`. */
export interface Raster<A extends Float32Array | Uint16Array | Uint8Array = Uint16Array> {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly data: A;
}

/**
 * A decoded scan: linear camera RGB, unity white balance, no gamma, no orientation applied.
 * The signal of a sample is `(data - black) * scale`; 1.0 is the sensor's saturation.
 * A small pedestal is kept below `black` so that noise around zero stays unbiased.
 */
export interface LinearScan extends Raster<Uint16Array> {
  readonly black: number;
  readonly scale: number;
}

/** What a file says of itself. Unknown values are absent, never invented. */
export interface ScanInfo {
  /** What kind of file the samples came from. */
  readonly source: "raw" | "tiff" | "jpeg";
  readonly make?: string;
  readonly model?: string;
  readonly lens?: string;
  /** Shutter time in seconds. */
  readonly shutter?: number;
  /** f-number as written by the camera. */
  readonly aperture?: number;
  readonly iso?: number;
  /** Focal length in millimetres. */
  readonly focal?: number;
  /** Camera wall-clock time, "YYYY-MM-DDTHH:MM:SS", no zone. */
  readonly time?: string;
  /** Full-size pixels of the scan, before any half-size decoding. */
  readonly width: number;
  readonly height: number;
  /** True of files that were developed for display: encoded numbers, or a colour space of their own. */
  readonly display?: boolean;
  /** Bits that the file's samples carry. */
  readonly bits: number;
  /** Colour filter arrangement, where there is one. */
  readonly mosaic?: "bayer" | "xtrans";
  /** XYZ under daylight to camera red, green, blue, of the camera's model; any scale, and as sound as its source. */
  readonly colourMatrix?: Matrix3;
}

/** What kind of film the scan shows. */
export type Film = "colour-negative" | "black-and-white-negative" | "slide";

/** Output colour spaces: IEC 61966-2-1, Display P3, Adobe RGB (1998), ROMM RGB (ISO 22028-2). */
export type OutputSpace = "srgb" | "p3" | "adobe" | "romm";

/** A characteristic curve as a table: log10 exposure against density, ascending in logH. */
export interface CurveTable {
  readonly logH: readonly number[];
  readonly red: readonly number[];
  readonly green: readonly number[];
  readonly blue: readonly number[];
  /** log10 exposure of mid-grey on this table's axis; where absent, green density 0.70 above its minimum. */
  readonly mid?: number;
}

/** Everything of a resolved frame recipe that decides its colours. */
export interface FrameLook {
  readonly film: Film;
  /** Density of unexposed, developed film per channel. */
  readonly base: Rgb;
  /** Slope of the straight part per channel; used where no curve is given. */
  readonly gamma: Rgb;
  readonly curve?: CurveTable;
  /** Removes dye and sensor crosstalk, in density. */
  readonly unmix: Matrix3;
  /** Film exposures to linear sRGB primaries; rows sum to 1. */
  readonly colour: Matrix3;
  /** Brightness of the positive in stops. */
  readonly exposure: number;
  /** Filtration in CC units (0.01 D). */
  readonly filtration: { readonly cyan: number; readonly magenta: number; readonly yellow: number };
  readonly tone: ToneLook;
  /** Areas that are printed otherwise than the rest; absent where there are none. */
  readonly local?: readonly LocalArea[];
  /** 1 leaves colours as they are, 0 is grey. */
  readonly saturation: number;
  /** Colours of the print itself; absent where it has none (film/toning.ts). */
  readonly toning?: Toning;
}

/** A hue angle of CIELAB in degrees, and a chroma C*ab. */
export interface Hue {
  readonly hue: number;
  readonly strength: number;
}

/** Toned silver of black-and-white prints, and the colour of the paper's base. */
export interface Toning {
  readonly shadows: Hue;
  readonly highlights: Hue;
  readonly paper: Hue;
}

/** The print curve. */
export interface ToneLook {
  /** Slope d log Y / d log H at mid-grey. */
  readonly contrast: number;
  /** ISO range of the paper that the contrast follows from; absent where the recipe states a slope (film/paper.ts). */
  readonly range?: number;
  /** What toe and shoulder mean, as the version of the recipe that states them; 1 where absent. */
  readonly version?: 2;
  /** Version 1, 0 … 1: how early shadows begin to flatten. Version 2, −1 … 1: closes or opens the shadows. */
  readonly toe: number;
  /** Version 1, 0 … 1: how early highlights begin to flatten. Version 2, −1 … 1: holds back or opens the highlights. */
  readonly shoulder: number;
  /** L* of the deepest black, 0 … 30. */
  readonly black: number;
  /** Pairs of L* in, L* out, ascending; empty leaves tones as they are. */
  readonly points: readonly (readonly [number, number])[];
}

/** A place in the picture as it is shown, in fractions of its width (from the left) and height (from the top). */
export type ShownPoint = readonly [x: number, y: number];

/** The form of an area that is printed otherwise, on the picture as it is shown. */
export type LocalShape =
  /** Full at and before the first point, nothing at and beyond the second. */
  | { readonly kind: "line"; readonly from: ShownPoint; readonly to: ShownPoint }
  /** Radii in fractions of width and height, turned clockwise by degrees. */
  | {
      readonly kind: "oval";
      readonly centre: ShownPoint;
      readonly radii: ShownPoint;
      readonly turn: number;
      readonly feather: number;
    }
  | { readonly kind: "polygon"; readonly points: readonly ShownPoint[]; readonly feather: number };

/** An area that gets exposure, filtration or contrast of its own: dodging and burning. */
export interface LocalArea {
  readonly shape: LocalShape;
  /** In EV, on top of the frame's. */
  readonly exposure: number;
  /** In CC units, on top of the frame's. */
  readonly filtration: FrameLook["filtration"];
  /** Factor of the frame's contrast. */
  readonly contrast: number;
}

/** The picture's place in the scan, in fractions of the scan's width and height; tilt in degrees, clockwise. */
export interface Area {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly tilt: number;
}

/** One or two coefficients of a radial model (lens/radial.ts). */
export type RadialTerms = readonly [first: number, second?: number];

/** Geometric faults of the lens that a scan was photographed with; radii in halves of the scan's diagonal. */
export interface LensFaults {
  /** Lateral colour: how much larger than green red and blue are drawn, a + b·r². */
  readonly lateral?: { readonly red: RadialTerms; readonly blue: RadialTerms };
  /** How much farther from the middle green is drawn, k1·r² + k2·r⁴; positive: pincushion distortion. */
  readonly distortion?: RadialTerms;
}

/** How the light that reaches the sensor changes over the scan; radii and places in halves of the scan's diagonal. */
export interface Falloff {
  /** a and b of a·r² + b·r⁴, EV against the middle; below 0: the corners are darker. */
  readonly radial: RadialTerms;
  /** c of c·(x² − y²), EV: what is added at the sides and taken off at the top and bottom. */
  readonly oval?: number;
  /** EV from the middle to the right and downwards, per half of the diagonal. */
  readonly gradient: readonly [right: number, down: number];
}

/** A side of the picture. */
export type Side = "left" | "top" | "right" | "bottom";

/** How grave a problem of a recipe, or a finding of a survey, is. */
export type Severity = "error" | "warning" | "info";
