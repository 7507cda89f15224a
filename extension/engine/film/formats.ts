/**
 * Film formats: the nominal size of the picture on the film. The gate of a camera sets the real size, which varies by a
 * percent or two between makers (common practice, no source), so these are for scale and for finding a frame, not for
 * measuring. A size that has no name here is given in millimetres.
 */

export interface Format {
  /** As a recipe's `format` writes it. */
  readonly id: string;
  /** Sides of the picture in millimetres. */
  readonly long: number;
  readonly short: number;
  /**
   * Where the size comes from. `standard`: pages that quote ISO 732 (roll film). `practice`: common practice, from
   * memory, no source.
   */
  readonly source: "standard" | "practice";
}

/** In the order of the recipe's schema: perforated 35 mm film, roll film, cartridges, cine film, sheets. */
export const FILM_FORMATS = [
  { id: "135", long: 36, short: 24, source: "practice" },
  { id: "135-half", long: 24, short: 18, source: "practice" },
  { id: "24x24", long: 24, short: 24, source: "practice" },
  { id: "24x65", long: 65, short: 24, source: "practice" },
  { id: "645", long: 56, short: 41.5, source: "standard" },
  { id: "6x6", long: 56, short: 56, source: "standard" },
  // Gates are 69 to 69.5 mm long.
  { id: "6x7", long: 70, short: 56, source: "standard" },
  // 76 mm by some cameras.
  { id: "6x8", long: 77, short: 56, source: "standard" },
  // 82 to 84 mm by camera.
  { id: "6x9", long: 84, short: 56, source: "standard" },
  { id: "6x12", long: 118, short: 56, source: "standard" },
  { id: "6x17", long: 168, short: 56, source: "standard" },
  // 127 film is 46 mm wide.
  { id: "127-4x3", long: 40, short: 30, source: "practice" },
  { id: "127-4x4", long: 40, short: 40, source: "practice" },
  { id: "127-4x6", long: 65, short: 40, source: "practice" },
  // The frame that the cartridge's film is pre-exposed with leaves 26.5 mm.
  { id: "126", long: 28, short: 28, source: "practice" },
  { id: "110", long: 17, short: 13, source: "practice" },
  // Cine film: the camera's aperture. 35 mm beside a sound track; 16 mm, and its Type W across the second row of
  // perforations; 8 mm, and its Type S with small perforations.
  { id: "cine-35", long: 22, short: 16, source: "practice" },
  { id: "cine-16", long: 10.26, short: 7.49, source: "practice" },
  { id: "cine-16w", long: 12.52, short: 7.41, source: "practice" },
  { id: "cine-9.5", long: 8.5, short: 6.5, source: "practice" },
  { id: "cine-8", long: 4.88, short: 3.68, source: "practice" },
  { id: "cine-8s", long: 5.79, short: 4.01, source: "practice" },
  // A sheet less the margin that its holder covers.
  { id: "4x5in", long: 120, short: 95, source: "practice" },
  { id: "5x7in", long: 171, short: 120, source: "practice" },
  { id: "8x10in", long: 244, short: 193, source: "practice" },
] as const satisfies readonly Format[];

export type FormatId = (typeof FILM_FORMATS)[number]["id"];

/** A format as a recipe states it: by name, or the sides of the picture in millimetres, in any order. */
export type StatedFormat = FormatId | readonly [number, number];

/** The sides of a picture in millimetres that a recipe may state. */
export const FORMAT_SIDE_RANGE = { min: 1, max: 1000 } as const;

/** The format of a name. */
export const formatOf = (id: FormatId): Format => FILM_FORMATS.find((format) => format.id === id)!;

/** Whether a text names a format. */
export const isFormat = (id: string): id is FormatId => FILM_FORMATS.some((format) => format.id === id);

/** Sides of a format's picture in millimetres, the longer first. */
export function pictureSides(format: StatedFormat): readonly [long: number, short: number] {
  if (typeof format === "string") return [formatOf(format).long, formatOf(format).short];
  return [Math.max(...format), Math.min(...format)];
}

/** Longer over shorter side of a format's picture. */
export function aspectRatio(format: StatedFormat): number {
  const [long, short] = pictureSides(format);
  return long / short;
}

/** A format in words: its name, or "60 × 45 mm". */
export const formatText = (format: StatedFormat): string =>
  typeof format === "string" ? format : `${format.join(" × ")} mm`;

/** The format that a text states: a name, or two sides as in "60x45mm"; undefined for any other text. */
export function parseFormat(text: string): StatedFormat | undefined {
  if (isFormat(text)) return text;
  const sides = /^(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)mm$/.exec(text);
  if (!sides) return undefined;
  const [width, height] = [Number(sides[1]), Number(sides[2])];
  const { min, max } = FORMAT_SIDE_RANGE;
  return [width, height].every((side) => side >= min && side <= max) ? [width, height] : undefined;
}
