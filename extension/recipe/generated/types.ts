// Made by schemas/generate.mjs from schemas/recipe.parts.json; do not edit.

/** A roll of film that was shot and photographed: its stock, its scans, how they are converted, and its frames. */
export interface RollRecipe {
  readonly version: Version;
  /** The roll's name, as it is to appear on contact sheets and in the pictures' metadata. */
  readonly title?: string;
  /**
   * Path of the stock's recipe, relative to this file. Every value that the roll does not state itself comes from
   * there.
   */
  readonly stock?: string;
  readonly film?: FilmKind;
  readonly format?: FilmFormat;
  readonly exposed?: Exposed;
  readonly iptc?: Iptc;
  /**
   * Folder of the scans, relative to this file. The names of scans elsewhere in the recipe are relative to this
   * folder. Default: the recipe's own folder.
   */
  readonly scans?: string;
  readonly light?: Light;
  readonly negative?: Negative;
  readonly positive?: Positive;
  readonly output?: Outputs;
  /** The frames, named as on the film's edge: up to three digits and at most one capital letter, in quotes. */
  readonly frames?: Readonly<Record<string, Frame>>;
  readonly note?: Note;
  /**
   * Size and SHA-256 of each scan by its name, so that the same recipe means the same picture. Written by
   * `rollbook lock`, checked before rendering.
   */
  readonly fingerprints?: Readonly<Record<string, Fingerprint>>;
  readonly automatic?: Automatic;
}

/** A kind of film in a kind of development: what rolls of it have in common. */
export interface StockRecipe {
  readonly version: Version;
  /** The stock's name. */
  readonly title?: string;
  readonly film?: FilmKind;
  /** The film's box speed. Unit: ISO speed. Range: 0.1 to 100000. */
  readonly iso?: number;
  readonly format?: FilmFormat;
  /** How the film was developed: developer, dilution, time, temperature, in free text. */
  readonly process?: string;
  readonly negative?: Negative;
  readonly positive?: Positive;
  readonly output?: Outputs;
  readonly note?: Note;
}

/**
 * Version of the recipe format: 2. Recipes of version 1 stay valid and keep their pictures: toe and shoulder then
 * mean what they meant in version 1. `rollbook format --upgrade` converts them. One of: 2, 1.
 */
export type Version = 2 | 1;

/**
 * What kind of film it is. Slide film is already positive: base, gamma, curve and unmix do not apply to it. One
 * of: colour-negative, black-and-white-negative, slide. Default: colour-negative.
 */
export type FilmKind = "colour-negative" | "black-and-white-negative" | "slide";

/**
 * Size of a frame on the film: a name in quotes (135 to 24x65 on perforated 35 mm film, 645 to 6x17 on roll film,
 * 127-4x3 to 110 on smaller films, cine-35 to cine-8s on cine film (16w is 16 mm Type W, 8s is 8 mm Type S), 4x5in
 * to 8x10in on sheets) or [width, height] in millimetres. It gives the scale for ppi and print sizes. Unit: a
 * name, or millimetres. Range: 1 to 1000. One of: 135, 135-half, 24x24, 24x65, 645, 6x6, 6x7, 6x8, 6x9, 6x12,
 * 6x17, 127-4x3, 127-4x4, 127-4x6, 126, 110, cine-35, cine-16, cine-16w, cine-9.5, cine-8, cine-8s, 4x5in, 5x7in,
 * 8x10in.
 */
export type FilmFormat = "135" | "135-half" | "24x24" | "24x65" | "645" | "6x6" | "6x7" | "6x8" | "6x9" | "6x12" | "6x17" | "127-4x3" | "127-4x4" | "127-4x6" | "126" | "110" | "cine-35" | "cine-16" | "cine-16w" | "cine-9.5" | "cine-8" | "cine-8s" | "4x5in" | "5x7in" | "8x10in" | readonly [number, number];

/**
 * How the film was exposed, for the record and for the pictures' metadata. A frame states what differs from its
 * roll.
 */
export interface Exposed {
  /** The camera that exposed the film. */
  readonly camera?: string;
  /** The lens that exposed the film. */
  readonly lens?: string;
  /** Day of the exposure, as year-month-day. Unit: calendar date. */
  readonly date?: string;
  /**
   * Local time of the exposure, as hours:minutes, with seconds and the offset from UTC where they are known. It
   * needs a date. Unit: time of day.
   */
  readonly time?: string;
  /** The speed that the film was metered at. Unit: exposure index. Range: 0.1 to 100000. */
  readonly rated?: number;
  /**
   * Development beyond normal; negative when the film was pulled. A record only: what it did to the film belongs
   * in gamma or curve. Unit: stops. Range: −5 to 5. Default: 0.
   */
  readonly push?: number;
  /** Where the film was exposed. */
  readonly place?: string;
  /** Where the film was exposed, as [latitude, longitude]: north and east are positive. Unit: degrees, WGS 84. */
  readonly coordinates?: readonly [number, number];
  /** Focal length of the lens that exposed the film. Unit: mm. Range: 0.5 to 20000. */
  readonly focal?: number;
  /** Aperture that the film was exposed at: 5.6 for f/5.6. Unit: f-number. Range: 0.5 to 2000. */
  readonly aperture?: number;
  /**
   * Time that the film was exposed for: a fraction such as 1/250, or a number of seconds. Unit: seconds. Range:
   * 0.00001 to 1000000.
   */
  readonly shutter?: number | string;
  /** Filter in front of the lens. */
  readonly filter?: string;
  /** How this film was developed: developer, dilution, time, temperature, in free text. */
  readonly developer?: string;
}

/**
 * What the pictures' metadata state of the picture, in the terms of the IPTC Photo Metadata Standard. A frame
 * states what differs from its roll.
 */
export interface Iptc {
  /** Description of what the picture shows. Without one the frame's note stands in its place. */
  readonly caption?: string;
  /** Keywords of the picture. A frame's list stands in place of its roll's. */
  readonly keywords?: readonly string[];
  /** Who took the picture. */
  readonly creator?: string;
  /** Copyright notice. */
  readonly copyright?: string;
}

/** The light source behind the film, and what the set-up itself adds to every scan. */
export interface Light {
  /**
   * Name of the scan of the bare light: same set-up, no film. Every scan is divided by it, which removes uneven
   * light and the light's colour. For frames in three-colour light, the names of three: one each of the red, green
   * and blue light.
   */
  readonly blank?: string | { readonly red: string; readonly green: string; readonly blue: string };
  /**
   * Veiling light that adds to every scan: one number, or one each for red, green and blue. Unit: fraction of the
   * bare light. Range: 0 to 0.2. Default: 0.
   */
  readonly flare?: number | readonly [number, number, number];
  /**
   * What the shutter times in the scans' files are: taken as written, or nominal, the marks of the usual series,
   * of which 1/30 stands for 1/32 s. One of: written, nominal. Default: written.
   */
  readonly times?: "written" | "nominal";
  readonly spots?: Spots;
  readonly lens?: Lens;
}

/**
 * Faults of the copy lens, which are corrected on every scan before anything else, the blank included. Radii are
 * counted from the middle of the scan, half of its diagonal is 1. Measured by `rollbook lens`.
 */
export interface Lens {
  /** Lateral colour (lateral chromatic aberration): how much larger than green the lens draws red and blue. */
  readonly lateral?: { readonly red?: LateralTerms; readonly blue?: LateralTerms };
  /**
   * [k1, k2] of k1·r² + k2·r⁴: how much farther from the middle the lens draws everything. Above 0: pincushion
   * distortion, below: barrel. Joins have to be measured again when it changes. Unit: fraction of the radius.
   * Range: −0.1 to 0.1. Default: [0].
   */
  readonly distortion?: readonly number[];
  readonly falloff?: Falloff;
}

/**
 * Falloff of the light and the lens over the scan, for rolls without a blank; a blank takes out what there is and
 * makes it void. Where the base was read the light counts as 1, so the base keeps its density.
 */
export interface Falloff {
  /**
   * [a, b] of a·r² + b·r⁴: light against the middle of the scan. Both together are that in the corner; below 0 it
   * is darker there. Unit: EV. Range: −4 to 4. Default: [0].
   */
  readonly radial?: readonly number[];
  /**
   * c of c·(x² − y²): added towards the left and right sides, taken off towards top and bottom, as a light panel
   * that is wider than high has it. Unit: EV. Range: −4 to 4. Default: 0.
   */
  readonly oval?: number;
  /**
   * [right, down]: how the light changes from the middle to the right, and downwards. Unit: EV per half of the
   * diagonal. Range: −4 to 4. Default: [0, 0].
   */
  readonly gradient?: readonly [number, number];
}

/**
 * [a, b] of a + b·r²: how much farther from the middle than green the lens draws this colour. Both together, times
 * half of the diagonal in pixels, is its shift in the corner. Unit: fraction of the radius. Range: −0.02 to 0.02.
 * Default: [0].
 */
export type LateralTerms = readonly number[];

/**
 * What is to be healed: specks, each as [x, y, radius], and hairs or scratches, each as { line, width }. Under
 * `light` they are on the sensor or lens and sit at the same place in every scan; under a frame they are on the
 * film. y is counted in widths too, so that a spot is round. Unit: fractions of the scan's width. Default: [].
 */
export type Spots = readonly Spot[];

/** One speck: [x, y, radius]; or one hair or scratch: { line, width }. */
export type Spot = readonly [number, number, number] | { readonly line: readonly (readonly [number, number])[]; readonly width: number };

/** How densities of the film are turned back into what the film was exposed to. */
export interface Negative {
  readonly base?: Base;
  /**
   * Slope of the straight part of the characteristic curve: one number, or one each for red, green and blue. Give
   * gamma or curve, not both. Unit: density per log10 exposure. Range: 0.1 to 3. Default: 0.55; 0.62 for
   * black-and-white negatives.
   */
  readonly gamma?: number | readonly [number, number, number];
  readonly curve?: FilmCurve;
  /**
   * 3×3 matrix that takes the crosstalk of dyes and sensor out of the densities: rows give red, green and blue,
   * columns are the scan's red, green and blue. Unit: factors of density. Default: [[1, 0, 0], [0, 1, 0], [0, 0,
   * 1]].
   */
  readonly unmix?: readonly [UnmixRow, UnmixRow, UnmixRow];
  /**
   * 3×3 matrix from the film's exposures to linear light with sRGB's primaries. Each row adds up to 1, so that
   * neutrals stay neutral. Unit: factors of linear light. Default: [[1, 0, 0], [0, 1, 0], [0, 0, 1]].
   */
  readonly colour?: readonly [ColourRow, ColourRow, ColourRow];
}

/** One row: the shares of the scan's red, green and blue density. Range: −4 to 4. */
export type UnmixRow = readonly [number, number, number];

/** One row: the shares of the film's red, green and blue exposure. They add up to 1. Range: −5 to 5. */
export type ColourRow = readonly [number, number, number];

/**
 * The base: density of unexposed, developed film (base plus fog, and the orange mask of colour film), and where it
 * was read.
 */
export interface Base {
  /**
   * Density of the base in red, green and blue. With a blank it is the film's alone; without one it carries the
   * light's colour too. Unit: density. Range: −1 to 5. Default: [0, 0, 0].
   */
  readonly density?: readonly [number, number, number];
  readonly read?: BaseReading;
}

/** Where the base was read, inherited as a whole. Written by `rollbook base --write`; read again whenever you like. */
export interface BaseReading {
  /** Name of the scan that shows rebate or leader. */
  readonly scan: string;
  /** The area that was read, as [left, top, width, height]. Unit: fractions of the scan's width and height. */
  readonly area?: readonly [number, number, number, number];
  /**
   * Standard deviation of the densities inside the area: one number, or one each for red, green and blue. A record
   * of how good the reading was. Unit: density. Range: 0 to 2.
   */
  readonly scatter?: number | readonly [number, number, number];
}

/**
 * The film's characteristic curve as a table, inherited as a whole. Give red, green and blue, or density alone for
 * black-and-white film. Give gamma or curve, not both.
 */
export interface FilmCurve {
  /**
   * The exposures of the table, ascending; each list of densities has one value for each of them. Unit: log10
   * exposure. Range: −8 to 8.
   */
  readonly logH: readonly number[];
  readonly red?: CurveDensities;
  readonly green?: CurveDensities;
  readonly blue?: CurveDensities;
  readonly density?: CurveDensities;
  /**
   * The exposure of mid-grey on the table's own axis. Unit: log10 exposure. Range: −8 to 8. Default: where green
   * density (density, on black-and-white film) is 0.70 above its minimum.
   */
  readonly mid?: number;
}

/** Density at each exposure of logH. It never falls as exposure rises. Unit: density. Range: −1 to 6. */
export type CurveDensities = readonly number[];

/** How the picture is printed from the negative: brightness, colour balance and tone. */
export interface Positive {
  /** Brightness of the positive: 1 EV more doubles the light. Unit: EV. Range: −10 to 10. Default: 0. */
  readonly exposure?: number;
  readonly filtration?: Filtration;
  /**
   * Contrast of the print: the slope of the print curve at mid-grey, as d log Y / d log H; or a paper's contrast,
   * as its ISO range (ISO 6846) from R40 to R250 or as a grade from -1 to 5. Paper of R110 holds a negative whose
   * densities span 1.10. Mid-grey itself stays where it is. Unit: slope at mid-grey. Range: 0.2 to 5. Default:
   * 1.35; 1 for slides.
   */
  readonly contrast?: number | string;
  /**
   * Opens (above 0) or closes (below 0) the shadows; mid-grey stays. In version 1, 0 to 1: how early the shadows
   * begin to flatten. Unit: share. Range: −1 to 1. Default: 0; 0.3 in version 1.
   */
  readonly toe?: number;
  /**
   * Opens (above 0) or holds back (below 0) the highlights; mid-grey stays. In version 1, 0 to 1: how early the
   * highlights begin to flatten. Unit: share. Range: −1 to 1. Default: 0; 0.4 in version 1.
   */
  readonly shoulder?: number;
  /** Lightness of the deepest black. Unit: L*. Range: 0 to 30. Default: 0.5. */
  readonly black?: number;
  /** Strength of colours: 0 is grey, 1 leaves them as they are. Unit: factor. Range: 0 to 3. Default: 1. */
  readonly saturation?: number;
  readonly toning?: Toning;
  /**
   * Fine adjustment of the tones after the print curve: pairs of [L* in, L* out], ascending. Unit: L*. Default:
   * [].
   */
  readonly curve?: readonly (readonly [number, number])[];
  /**
   * Local exposure (dodging and burning): areas that get exposure, filtration or contrast of their own. Places are
   * fractions of the picture as shown, after crop, mirroring and turn: x from its left edge, y from its top edge.
   * Where areas overlap, exposures and filters add up and contrasts multiply. Default: [].
   */
  readonly local?: readonly LocalArea[];
}

/** Colours of the print itself: toned silver of black-and-white prints, and the paper's base. */
export interface Toning {
  /**
   * Colour of the shadows of a black-and-white print, at unchanged L*. Its strength is full at mid-grey where
   * highlights have the same.
   */
  readonly shadows?: { readonly hue?: number; readonly strength?: number };
  /** Colour of the highlights of a black-and-white print, at unchanged L*. */
  readonly highlights?: { readonly hue?: number; readonly strength?: number };
  /**
   * Colour of the paper's base, on any film: it multiplies the light of every tone, and white becomes as light as
   * such a colour can be.
   */
  readonly paper?: { readonly hue?: number; readonly strength?: number };
}

/** One area: its shape (line, oval or polygon, one of the three) and what it does. */
export interface LocalArea {
  /**
   * Identity of the area, which stays when it is moved or renamed: merges and reviews go by it, or by the name
   * where there is none.
   */
  readonly id?: string;
  /** What the area covers, for reviews. */
  readonly name?: string;
  /**
   * A gradient along a line, as [[x, y], [x, y]]: the area counts whole at the first point and before it, and not
   * at all at the second and beyond it. Unit: fractions of the picture as shown.
   */
  readonly line?: readonly [LocalPoint, LocalPoint];
  /** An oval, as [x, y, horizontal radius, vertical radius]. Unit: fractions of the picture as shown. */
  readonly oval?: readonly [number, number, number, number];
  /** A polygon, as its corners in order. Its sides must not cross. Unit: fractions of the picture as shown. */
  readonly polygon?: readonly LocalPoint[];
  /** Turns an oval about its centre. Unit: degrees clockwise. Range: −180 to 180. Default: 0. */
  readonly turn?: number;
  /**
   * Width of the soft edge of an oval or a polygon, half of it inside and half outside of the outline. Unit:
   * fraction of the picture's longest side. Range: 0 to 1. Default: 0.1.
   */
  readonly feather?: number;
  /**
   * Brightness of the area, on top of the frame's: above 0 dodges (lighter), below 0 burns (darker). Unit: EV.
   * Range: −5 to 5. Default: 0.
   */
  readonly exposure?: number;
  readonly filtration?: Filtration;
  /** Contrast of the area, as a factor of the frame's; mid-grey stays. Unit: factor. Range: 0.25 to 4. Default: 1. */
  readonly contrast?: number;
}

/** A point: [x, y]. */
export type LocalPoint = readonly [number, number];

/** Colour balance as in a colour enlarger: a filter of the cast's colour removes the cast. */
export interface Filtration {
  /** Cyan filter: adds to the negative's red density. Unit: CC (0.01 density). Range: −200 to 200. Default: 0. */
  readonly cyan?: number;
  /** Magenta filter: adds to the negative's green density. Unit: CC (0.01 density). Range: −200 to 200. Default: 0. */
  readonly magenta?: number;
  /** Yellow filter: adds to the negative's blue density. Unit: CC (0.01 density). Range: −200 to 200. Default: 0. */
  readonly yellow?: number;
}

/**
 * The files to write for each frame. The nearest list replaces lists further out. Default: [{"name":"positive",
 * "type":"jpeg"}].
 */
export type Outputs = readonly Output[];

/** One kind of file to write. */
export interface Output {
  /**
   * Name of this output, for `--output` and for the folder it is written to: letters, digits, space, and _ . -
   * after the first character.
   */
  readonly name: string;
  /** File type. One of: tiff, jpeg, png, webp, avif. */
  readonly type: "tiff" | "jpeg" | "png" | "webp" | "avif";
  /**
   * Name of each picture's file, without its ending: text in which {roll}, {frame}, {title}, {scan} and {output}
   * stand for the recipe's name, the frame's id and title, its scan's name and this output's name. A frame without
   * a title leaves {title} out. Never a path: none of / \ : * ? " < > |. Default: {roll}-{frame}.
   */
  readonly file?: string;
  /**
   * Bits per channel. 16 bits need tiff or png. Unit: bits per channel. One of: 8, 16. Default: 16 for tiff, 8
   * otherwise.
   */
  readonly depth?: 8 | 16;
  /** Quality of lossy files (jpeg, webp, avif). Unit: encoder's scale. Range: 1 to 100. Default: 90. */
  readonly quality?: number;
  /**
   * Colour space: sRGB (IEC 61966-2-1), Display P3, Adobe RGB (1998), ROMM RGB (ISO 22028-2). Its profile is
   * embedded. One of: srgb, p3, adobe, romm. Default: srgb.
   */
  readonly space?: "srgb" | "p3" | "adobe" | "romm";
  /**
   * Length of the longest side. Pictures are made smaller, never larger. Unit: pixels. Range: 16 to 60000.
   * Default: the picture's own size.
   */
  readonly long?: number;
  /** Output sharpening after resizing: 0 none, 1 strong. Unit: share. Range: 0 to 1. Default: 0. */
  readonly sharpen?: number;
  /** Lossless compression of tiff files. One of: none, deflate. Default: deflate. */
  readonly compression?: "none" | "deflate";
  readonly print?: Print;
}

/**
 * Makes the file a sheet to print: the picture on its paper, at the paper's size, in the printer's colours. For
 * tiff and jpeg.
 */
export interface Print {
  /**
   * Size of the paper: a name (A6 to A2 of ISO 216, or sides in centimetres or inches) or [width, height] in
   * millimetres. Unit: a name, or millimetres. Range: 30 to 3000. One of: A6, A5, A4, A3, A2, 9x13cm, 10x15cm,
   * 13x18cm, 18x24cm, 24x30cm, 30x40cm, 40x50cm, 50x60cm, 4x6in, 5x7in, 8x10in, 8x12in, 8.5x11in, 11x14in,
   * 11x17in, 12x16in, 16x20in, 20x24in.
   */
  readonly paper: "A6" | "A5" | "A4" | "A3" | "A2" | "9x13cm" | "10x15cm" | "13x18cm" | "18x24cm" | "24x30cm" | "30x40cm" | "40x50cm" | "50x60cm" | "4x6in" | "5x7in" | "8x10in" | "8x12in" | "8.5x11in" | "11x14in" | "11x17in" | "12x16in" | "16x20in" | "20x24in" | readonly [number, number];
  /**
   * How the paper lies: as the picture does, its long side along the picture's, or always upright or lying. One
   * of: picture, portrait, landscape. Default: picture.
   */
  readonly orientation?: "picture" | "portrait" | "landscape";
  /**
   * Paper that stays white at the edges, at the least: one width, or [top, right, bottom, left]. Unit: mm. Range:
   * 0 to 500. Default: 10.
   */
  readonly border?: number | readonly [number, number, number, number];
  /**
   * whole: all of the picture, as large as the borders leave; fill: the space between the borders is filled, and
   * the middle of the picture printed. One of: whole, fill. Default: whole.
   */
  readonly fit?: "whole" | "fill";
  /**
   * Longest side of the picture on the paper. A picture never reaches into the borders. Unit: mm. Range: 10 to
   * 3000. Default: as large as the borders leave.
   */
  readonly length?: number;
  /**
   * Where the picture lies between the borders: [across, down]; [0, 0] is the top left, [0.5, 0.5] the middle.
   * Unit: fraction of the free space. Range: 0 to 1. Default: [0.5, 0.5].
   */
  readonly place?: readonly [number, number];
  /**
   * Pixels per inch of paper, also stated in the file. Pictures are enlarged or made smaller to fit. Unit: ppi.
   * Range: 72 to 1440. Default: 300.
   */
  readonly resolution?: number;
  /**
   * ICC profile of the printer with its paper, relative to this file. The picture is converted to its colours, and
   * it is embedded. Without one the file stays in the output's space.
   */
  readonly profile?: string;
  /**
   * Rendering intent (ISO 15076-1) of the conversion to the profile: perceptual, media-relative colorimetric,
   * saturation or ICC-absolute colorimetric. One of: perceptual, relative-colorimetric, saturation,
   * absolute-colorimetric. Default: relative-colorimetric.
   */
  readonly intent?: "perceptual" | "relative-colorimetric" | "saturation" | "absolute-colorimetric";
  /**
   * Scales the tones so that black becomes the paper's deepest black (ISO 18619) and no shadow is cut off. For the
   * relative-colorimetric intent; the others have their own rule. Default: true.
   */
  readonly blackPointCompensation?: boolean;
}

/** One picture on the film. */
export interface Frame {
  /** Name of the frame's scan, relative to the roll's `scans` folder. Give scan or scans, not both. */
  readonly scan?: string;
  /** Names of the scans that are joined into this frame. The first one sets the frame's exposure and axes. */
  readonly scans?: readonly string[];
  /**
   * Names of scans of this one picture that are merged into one scan: at several shutter times for a dense
   * negative or slide, or at the same time so that noise and dust that moved average out. The first one sets the
   * frame's axes. Give exposures in place of scan.
   */
  readonly exposures?: readonly string[];
  /**
   * Names of three scans of this one picture in three-colour light: each under one narrow-band light, red, green
   * and blue, that gives its channel. light.blank names the bare light of each. Give channels in place of scan.
   */
  readonly channels?: { readonly red: string; readonly green: string; readonly blue: string };
  /**
   * Other scans of the same picture, which was photographed again. They stay on disk and make no frame of their
   * own.
   */
  readonly unused?: readonly string[];
  /**
   * Where each of `scans` lies on the first one, as [x, y, angle, exposure]. Measured once, then kept. Where no
   * exposure is stated, each scan is matched to those before it in the list when it is rendered.
   */
  readonly join?: readonly (readonly [number, number, number, (number | readonly [number, number, number])?])[];
  readonly area?: FrameArea;
  /**
   * Turns the picture upright, after cropping and mirroring. The camera's orientation tag is never used. Unit:
   * degrees clockwise. One of: 0, 90, 180, 270. Default: 0.
   */
  readonly turn?: 0 | 90 | 180 | 270;
  /** true when the emulsion faced the camera: swaps left and right. Default: false. */
  readonly mirror?: boolean;
  /** true keeps the frame in the recipe but writes no picture of it. Default: false. */
  readonly skip?: boolean;
  /**
   * Whether the frame is chosen. It changes nothing in the picture, and rejected frames are written unless they
   * are left out on purpose. Exported pictures state it as xmp:Rating: −1 for reject. One of: keep, reject.
   */
  readonly choice?: "keep" | "reject";
  /**
   * How good the frame is among those of the roll. It changes nothing in the picture. Exported pictures state it
   * as xmp:Rating, where choice is not reject. Unit: 5 highest. One of: 1, 2, 3, 4, 5.
   */
  readonly rank?: 1 | 2 | 3 | 4 | 5;
  readonly light?: Light;
  readonly negative?: Negative;
  readonly positive?: Positive;
  readonly spots?: Spots;
  /** The picture's title, for its metadata. */
  readonly title?: string;
  readonly exposed?: Exposed;
  readonly iptc?: Iptc;
  readonly note?: Note;
}

/**
 * The picture's place in the scan, for cropping and straightening. Fractions are of the scan as decoded, before
 * mirroring and turning.
 */
export interface FrameArea {
  /** Left edge. Unit: fraction of the scan's width. Range: 0 to 1. Default: 0. */
  readonly left?: number;
  /** Top edge. Unit: fraction of the scan's height. Range: 0 to 1. Default: 0. */
  readonly top?: number;
  /** Width. Unit: fraction of the scan's width. Range: 0.001 to 1. Default: 1. */
  readonly width?: number;
  /** Height. Unit: fraction of the scan's height. Range: 0.001 to 1. Default: 1. */
  readonly height?: number;
  /**
   * Clockwise rotation of the picture in the scan; the positive is rotated back about the area's centre. Unit:
   * degrees. Range: −45 to 45. Default: 0.
   */
  readonly tilt?: number;
}

/**
 * Digests of the values that `rollbook new` found on the scans. A value that does not have its digest any more was
 * changed by a person: renewing the automatic values keeps it.
 */
export interface Automatic {
  /** Digests of the roll's values. */
  readonly roll?: { readonly blank?: Digest; readonly flare?: Digest; readonly times?: Digest; readonly base?: Digest; readonly curve?: Digest; readonly filtration?: Digest; readonly contrast?: Digest; readonly toe?: Digest; readonly shoulder?: Digest };
  /** Digests of the frames' values, by the name of the frame's first scan. */
  readonly scans?: Readonly<Record<string, { readonly area?: Digest; readonly exposure?: Digest; readonly contrast?: Digest }>>;
}

/** Digest of an automatic value, and of the comments that were written above it. */
export type Digest = string;

/** What a scan's file was when the recipe was locked. */
export interface Fingerprint {
  /** Size of the file. Unit: bytes. Range: from 0. */
  readonly size: number;
  /** SHA-256 of the file (FIPS 180-4). Unit: 64 hexadecimal digits. */
  readonly sha256: string;
}

/** A note for people. It changes nothing in the picture. */
export type Note = string;
