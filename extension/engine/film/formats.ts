/**
 * Film formats: the nominal size of the picture on the film. The gate of a camera sets the real size, which varies by a
 * percent or two between makers (common practice, no source), so these are for scale and for finding a frame, not for
 * measuring.
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

/** In the order of the recipe's schema: perforated 35 mm film, roll film, sheets. */
export const FILM_FORMATS = [
  { id: "135", long: 36, short: 24, source: "practice" },
  { id: "135-half", long: 24, short: 18, source: "practice" },
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
  // A sheet less the margin that its holder covers.
  { id: "4x5in", long: 120, short: 95, source: "practice" },
  { id: "5x7in", long: 171, short: 120, source: "practice" },
  { id: "8x10in", long: 244, short: 193, source: "practice" },
] as const satisfies readonly Format[];

export type FormatId = (typeof FILM_FORMATS)[number]["id"];

/** The format of a recipe's `format`. */
export const formatOf = (id: FormatId): Format => FILM_FORMATS.find((format) => format.id === id)!;

/** Whether a text names a format. */
export const isFormat = (id: string): id is FormatId => FILM_FORMATS.some((format) => format.id === id);

/** Longer over shorter side of a format's picture. */
export const aspectRatio = (id: FormatId): number => formatOf(id).long / formatOf(id).short;

/** Sides of a format's picture in millimetres. */
export const pictureSides = (id: FormatId): readonly [long: number, short: number] => [
  formatOf(id).long,
  formatOf(id).short,
];
