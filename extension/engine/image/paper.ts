/** Where a picture lies on a sheet of paper: sizes of papers, borders, scaling and placing. */

/** ISO 216:2007, Table 1: trimmed sizes of the A series in mm. */
const ISO_216: Readonly<Record<string, readonly [width: number, height: number]>> = {
  A6: [105, 148],
  A5: [148, 210],
  A4: [210, 297],
  A3: [297, 420],
  A2: [420, 594],
};
const MM_PER_INCH = 25.4;
const MM_PER = { in: MM_PER_INCH, cm: 10 } as const;

/** More pixels than a sheet may have; a print of 50 × 60 cm at 600 ppi has 168 million. */
export const MAX_SHEET_PIXELS = 200_000_000;
/** A JPEG's longest side. */
export const MAX_SHEET_SIDE = 65_500;
/** Millimetres between the borders at the least. */
export const MIN_SPACE = 10;

export type Orientation = "picture" | "portrait" | "landscape";
export type Borders = readonly [top: number, right: number, bottom: number, left: number];

/** A sheet and what is asked of the picture on it. Lengths in millimetres. */
export interface PaperForm {
  readonly paper: readonly [width: number, height: number];
  readonly orientation: Orientation;
  readonly border: Borders;
  readonly fit: "whole" | "fill";
  /** Longest side of the picture; absent for as large as the borders leave. */
  readonly length?: number;
  /** Shares of the free space left of and above the picture, 0 … 1. */
  readonly place: readonly [across: number, down: number];
  /** Pixels per inch. */
  readonly resolution: number;
}

/** A sheet in pixels, and the picture's place on it. */
export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
}

export interface SheetLayout extends Sheet {
  /** The printed picture's size in pixels. */
  readonly picture: readonly [width: number, height: number];
  /** Shares of the picture's width and height that are printed, 0 … 1, about its middle. */
  readonly shares: readonly [across: number, down: number];
}

/**
 * Width and height in mm of a paper by its name: A6 … A2, or sides with a unit such as "8x10in" or "13x18cm".
 * @throws RangeError for any other name
 */
export function paperSize(name: string): readonly [width: number, height: number] {
  const known = ISO_216[name];
  if (known) return known;
  const [, width, height, unit] = /^(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)(in|cm)$/.exec(name) ?? [];
  if (unit === undefined) throw new RangeError(`No paper is called ${JSON.stringify(name)}.`);
  const scale = MM_PER[unit as keyof typeof MM_PER];
  return [Number(width) * scale, Number(height) * scale];
}

/** The paper as it lies under a picture of these proportions. */
function lyingPaper(
  { paper: [a, b], orientation }: Pick<PaperForm, "paper" | "orientation">,
  wide: number,
  high: number,
) {
  const long = Math.max(a, b);
  const short = Math.min(a, b);
  const isWide = orientation === "landscape" || (orientation === "picture" && wide > high);
  return isWide ? ([long, short] as const) : ([short, long] as const);
}

/** Pixels of a length in mm. */
const pixels = (length: number, resolution: number): number => Math.round((length / MM_PER_INCH) * resolution);

/** Why a sheet cannot be: as a sentence's end, with what to do; undefined where it can. */
export function sheetProblem(
  form: Pick<PaperForm, "paper" | "orientation" | "border" | "resolution">,
): string | undefined {
  const [top, right, bottom, left] = form.border;
  const lies =
    form.orientation === "picture"
      ? [
          [2, 1],
          [1, 2],
        ]
      : [[1, 1]];
  for (const [wide, high] of lies as [number, number][]) {
    const [width, height] = lyingPaper(form, wide, high);
    if (width - left - right < MIN_SPACE || height - top - bottom < MIN_SPACE)
      return `The borders leave less than ${MIN_SPACE} mm of the paper. Make them narrower, or choose a larger paper.`;
    const [across, down] = [pixels(width, form.resolution), pixels(height, form.resolution)];
    if (across * down > MAX_SHEET_PIXELS || Math.max(across, down) > MAX_SHEET_SIDE)
      return `The sheet would have ${across} × ${down} pixels, more than ${MAX_SHEET_PIXELS / 1e6} million or than ${MAX_SHEET_SIDE} along a side. Lower the resolution.`;
  }
  return undefined;
}

/**
 * Lays a picture on its sheet.
 * @param wide width of the finished picture in any unit, after its turn
 * @param high height in the same unit
 * @throws RangeError for a sheet that cannot be (see `sheetProblem`)
 */
export function layOnSheet(form: PaperForm, wide: number, high: number): SheetLayout {
  const problem = sheetProblem(form);
  if (problem) throw new RangeError(problem);
  const [paperWide, paperHigh] = lyingPaper(form, wide, high);
  const px = (length: number): number => pixels(length, form.resolution);
  const [top, right, bottom, left] = form.border.map(px) as [number, number, number, number];
  const [width, height] = [px(paperWide), px(paperHigh)];
  const [spaceWide, spaceHigh] = [width - left - right, height - top - bottom];
  const whole = Math.min(spaceWide / wide, spaceHigh / high);
  const wanted = form.length === undefined ? whole : px(form.length) / Math.max(wide, high);
  const scale = form.fit === "fill" ? Math.max(spaceWide / wide, spaceHigh / high) : Math.min(whole, wanted);
  const size = (length: number, space: number): number => Math.max(1, Math.min(space, Math.round(length * scale)));
  const picture = [size(wide, spaceWide), size(high, spaceHigh)] as const;
  const [across, down] = form.place;
  return {
    width,
    height,
    left: left + Math.round((spaceWide - picture[0]) * across),
    top: top + Math.round((spaceHigh - picture[1]) * down),
    picture,
    shares:
      form.fit === "fill" ? [Math.min(1, spaceWide / (wide * scale)), Math.min(1, spaceHigh / (high * scale))] : [1, 1],
  };
}
