/**
 * Colours of a print that are not its picture's: toned silver on black-and-white film, and the colour of the paper's
 * base on any. Toning turns greys about the neutral axis of CIELAB at their own L*; the base multiplies the light.
 */
import { lightnessOf, xyzOfLab } from "../colour/lab.ts";
import { conversion, SPACES, toD50 } from "../colour/spaces.ts";
import { apply, invert } from "../math/matrix.ts";
import type { FrameLook, Hue, OutputSpace, Rgb } from "../types.ts";

/** Linear light of a channel of the print, 0 … 1, from the print curve's Y of that channel. */
type PrintColour = (channel: 0 | 1 | 2, y: number) => number;

const XYZ_TO_SRGB = invert(toD50(SPACES.srgb));

/**
 * How a look's print is coloured.
 * @returns undefined where nothing colours it: every channel's light is the print curve's own
 */
export function printColour(
  { film, toning }: Pick<FrameLook, "film" | "toning">,
  space: OutputSpace,
): PrintColour | undefined {
  if (!toning) return undefined;
  const { shadows, highlights, paper } = toning;
  const toned = film === "black-and-white-negative" && (shadows.strength > 0 || highlights.strength > 0);
  if (!toned && paper.strength === 0) return undefined;
  const fromSrgb = conversion(SPACES.srgb, SPACES[space]);
  const base = apply(fromSrgb, paperWhite(paper));
  if (!toned) return (c, y) => y * base[c];
  const grey = tonedGrey(shadows, highlights);
  // Asked for three channels of one grey in turn: the last grey is kept.
  let [known, colour]: [number, Rgb] = [NaN, [0, 0, 0]];
  return (c, y) => {
    if (y !== known) [known, colour] = [y, apply(fromSrgb, grey(y))];
    return Math.min(1, Math.max(0, colour[c])) * base[c];
  };
}

/**
 * Shares of a tone that belong to shadows and to highlights. Their sum is 1 over the middle of the scale and 0 at black
 * and white, where no colour of that lightness exists; they change places about L* 50, smoothly.
 * @param lightness L*, 0 … 100
 */
export function toneShares(lightness: number): readonly [shadows: number, highlights: number] {
  const x = Math.min(1, Math.max(0, lightness / 100));
  const sum = 1 - (2 * x - 1) ** 4;
  const high = x * x * (3 - 2 * x);
  return [sum * (1 - high), sum * high];
}

/** Linear sRGB of a grey of luminance Y, toned at its own L*; less chroma where sRGB does not hold so much. */
function tonedGrey(shadows: Hue, highlights: Hue): (y: number) => Rgb {
  const [one, two] = [direction(shadows), direction(highlights)];
  return (y) => {
    const lightness = lightnessOf(y);
    const [low, high] = toneShares(lightness);
    const a = one[0] * low + two[0] * high;
    const b = one[1] * low + two[1] * high;
    return withinSrgb((part) => srgbOf(lightness, part * a, part * b));
  };
}

/** Linear sRGB of a paper's base: the lightest colour of its hue and chroma that sRGB holds. */
function paperWhite(paper: Hue): Rgb {
  if (paper.strength === 0) return [1, 1, 1];
  const [a, b] = direction(paper);
  let [low, high] = [50, 100];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    if (Math.max(...srgbOf(middle, a, b)) <= 1) low = middle;
    else high = middle;
  }
  const white = srgbOf(low, a, b);
  return [Math.max(0, white[0]), Math.max(0, white[1]), Math.max(0, white[2])];
}

const HALVINGS = 24;

/** a* and b* of a hue and a chroma. */
function direction({ hue, strength }: Hue): readonly [number, number] {
  const angle = (hue * Math.PI) / 180;
  return [strength * Math.cos(angle), strength * Math.sin(angle)];
}

const srgbOf = (lightness: number, a: number, b: number): Rgb => apply(XYZ_TO_SRGB, xyzOfLab([lightness, a, b]));

/** The colour with the greatest part of its chroma, 0 … 1, that sRGB holds. */
function withinSrgb(colourOf: (part: number) => Rgb): Rgb {
  const holds = (rgb: Rgb): boolean => Math.min(...rgb) >= 0 && Math.max(...rgb) <= 1;
  const whole = colourOf(1);
  if (holds(whole)) return whole;
  let [low, high] = [0, 1];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    if (holds(colourOf(middle))) low = middle;
    else high = middle;
  }
  return colourOf(low);
}
