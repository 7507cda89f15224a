/**
 * The DX edge code (ISO 1007) as bars on film: a clock track next to the perforations and a data track at the edge. The
 * layout follows zxing-cpp's description of the format; sizes are read off a published picture of an edge (zxing-cpp,
 * test/samples/dxfilmedge-1/1.jpg): half a frame, 19.00 mm, is 264 pixels there, a code with a frame number 203.
 */

/** A film by the two numbers of its code. */
export interface EdgeCodeOfFilm {
  readonly product: number;
  readonly specifier: number;
}

const MODULES = 31;
/** Half a frame, mm. */
const HALF = 19;
const MODULE = ((203 / 264) * HALF) / MODULES;
/** From the film's edge inwards, mm: the data track reaches to `DATA`, the clock track from there to `CLOCK`. */
const DATA = 1.0;
const CLOCK = 2.25;
/** Where the code of a frame begins, mm from the middle of the frame, as on the published picture. */
const START = -2.8;

/** Bars of the data track, true where the film is exposed. */
function dataTrack({ product, specifier }: EdgeCodeOfFilm, half: number): boolean[] {
  const bits = (value: number, count: number): number[] =>
    Array.from({ length: count }, (_, i) => (value >> (count - 1 - i)) & 1);
  const frame = Math.floor(half / 2);
  const head = [0, ...bits(product, 7), 0, ...bits(specifier, 4), ...bits(frame, 6), half % 2, 0];
  const parity = head.reduce((a, b) => a + b, 0) % 2;
  return [1, 0, 1, 0, 1, ...head, parity, 0, 1, 0, 1].map((b) => b === 1);
}

/** A wide bar, then bar and space by turns, and a wide bar at the end. */
const clockTrack = (): boolean[] =>
  Array.from({ length: MODULES }, (_, i) => i < 5 || i >= MODULES - 3 || (i - 5) % 2 === 1);

/**
 * Whether the film is exposed by a code.
 * @param frame number of the picture, in halves: 41 is 20A
 * @param along mm from the picture's middle, @param inwards mm from the film's lower edge
 */
export function edgeCodeAt(film: EdgeCodeOfFilm, frame: number, along: number, inwards: number): boolean {
  if (inwards < 0 || inwards > CLOCK) return false;
  const shift = Math.floor((along - START) / HALF);
  const module = Math.floor((along - START - shift * HALF) / MODULE);
  if (module >= MODULES || frame + shift < 0) return false;
  return (inwards > DATA ? clockTrack() : dataTrack(film, frame + shift))[module];
}
