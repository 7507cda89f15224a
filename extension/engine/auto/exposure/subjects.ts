/** Kinds of subject, and where their tones and colours lie on film when they were given the light that is right. */

/** Mean and standard deviation over a kind's pictures. */
export type Spread = readonly [mean: number, spread: number];

/** All in log10 of film exposure: 0.3 is a stop. */
export interface Subject {
  /** How often it is photographed; the shares sum to 1. */
  readonly share: number;
  /** Whether it is so common that a roll of nothing else needs no thought of its own. */
  readonly ordinary: boolean;
  /** Where in a picture this kind's light is known best: 0 at its mean tone, 1 at its lightest, 0.5 half way between. */
  readonly by: 0 | 0.5 | 1;
  /** That tone above mid-grey (18 % in the light that the exposure was chosen for). */
  readonly level: Spread;
  /** Lightest tones above the mean, and the mean above the darkest: the same whatever the exposure. */
  readonly light: Spread;
  readonly dark: Spread;
  /** Red and blue above green, in the middle of the picture's colours: the same whatever the exposure. */
  readonly red: Spread;
  readonly blue: Spread;
}

type Row = readonly [Subject["share"], Subject["by"], ...Spread, ...Spread, ...Spread, ...Spread, ...Spread];

const subject =
  (ordinary: boolean) =>
  ([share, by, l, ls, t, ts, d, ds, r, rs, b, bs]: Row): Subject => ({
    share,
    ordinary,
    by,
    level: [l, ls],
    light: [t, ts],
    dark: [d, ds],
    red: [r, rs],
    blue: [b, bs],
  });

/*
 * What the rows rest on: surfaces in daylight return 3 % (black cloth) to 90 % (snow), a scene all in all 12 to 18 % (what
 * meters are calibrated for: ISO 2720), white cloud and paper 60 to 90 %; leaves 4 to 10 % and sunlit grass 8 to 20 %, in
 * green more than in red and several times more than in blue; skin 12 to 45 %; an incandescent lamp on daylight film has
 * half a stop to a stop more red and as much less blue; night is lit by less than a hundredth of a day (reflectances from
 * memory of published tables; the rest common practice, no source).
 *
 * The numbers were read from 45 invented families of pictures drawn with such reflectances, 24 pictures of each, put on
 * the film model and given 0.4 to 1.3 stops more; alike families share a row. For what was not invented, levels were
 * widened by 0.03, the other tones by 0.06 and colours by 0.10 (root of the sum of squares); forests, rooms and nights further,
 * for leaves differ, and how much light there is at night a picture does not say. How often each is photographed: common
 * practice, no source.
 */
// oxfmt-ignore
const ORDINARY: readonly Row[] = [
  // share, by, level, lightest, darkest, red, blue
  [0.129, 0.5,  0.38, 0.11,   0.35, 0.11,   0.63, 0.20,   0.00, 0.14,  -0.03, 0.15], // land under a sky
  [0.155, 0.5,  0.34, 0.11,   0.46, 0.12,   1.11, 0.20,  -0.01, 0.10,   0.01, 0.10], // streets, houses with dark windows
  [0.060, 0.5,  0.40, 0.11,   0.29, 0.11,   0.50, 0.17,  -0.12, 0.11,   0.06, 0.10], // shore and sea
  [0.034, 0,    0.35, 0.10,   0.23, 0.11,   0.49, 0.15,   0.06, 0.12,  -0.06, 0.13], // sand in the sun
  [0.034, 0.5,  0.26, 0.11,   0.53, 0.14,   0.73, 0.14,  -0.14, 0.11,  -0.45, 0.14], // trees and grass under a sky
  [0.138, 0.5,  0.18, 0.15,   0.26, 0.12,   0.38, 0.21,  -0.01, 0.12,  -0.04, 0.13], // people before walls and leaves
  [0.112, 0,    0.10, 0.20,   0.76, 0.32,   0.60, 0.18,  -0.01, 0.11,   0.01, 0.11], // rooms with a window
  [0.078, 0,    0.01, 0.21,   0.37, 0.14,   0.64, 0.24,  -0.01, 0.10,   0.00, 0.11], // things of all kinds
  [0.013, 0,   -0.02, 0.13,   0.20, 0.10,   0.21, 0.12,   0.35, 0.10,  -0.09, 0.10], // brick
  [0.026, 0.5,  0.14, 0.11,   0.74, 0.12,   0.93, 0.16,   0.00, 0.10,   0.00, 0.10], // alleys in shade, a strip of sky
  [0.034, 1,    1.02, 0.16,   0.36, 0.13,   1.23, 0.32,   0.00, 0.10,   0.00, 0.10], // people against the light
];
// oxfmt-ignore
const SPECIAL_SHARE: readonly Row[] = [
  [0.014, 0,   -0.48, 0.20,   0.26, 0.11,   0.38, 0.15,  -0.09, 0.13,  -0.45, 0.15], // forest
  [0.003, 0,   -0.36, 0.11,   0.32, 0.06,   0.47, 0.08,   0.30, 0.12,  -0.48, 0.10], // forest in autumn
  [0.0055, 0,   -0.25, 0.12,   0.55, 0.22,   0.52, 0.13,  -0.13, 0.11,  -0.47, 0.14], // flowers among leaves
  [0.003, 0,   -0.06, 0.12,   0.12, 0.06,   0.13, 0.06,  -0.03, 0.11,  -0.36, 0.12], // grass and nothing else
  [0.009, 0,   -1.10, 0.30,   0.70, 0.45,   0.34, 0.27,   0.12, 0.11,  -0.13, 0.14], // towns and streets at night
  [0.002, 0.5, -0.18, 0.08,   1.55, 0.18,   0.47, 0.16,   0.11, 0.10,  -0.08, 0.10], // rides and signs made of lamps
  [0.003, 0,   -0.77, 0.12,   0.76, 0.10,   0.62, 0.16,  -0.03, 0.14,  -0.03, 0.17], // a stage
  [0.0065, 0,   -0.65, 0.18,   0.24, 0.10,   0.20, 0.10,   0.06, 0.14,  -0.06, 0.14], // cellars and vaults
  [0.003, 0,   -0.71, 0.10,   0.59, 0.16,   0.31, 0.09,   0.00, 0.12,   0.01, 0.12], // workshops with a small window
  [0.003, 0,   -0.49, 0.18,   0.58, 0.13,   0.54, 0.25,  -0.01, 0.10,   0.00, 0.10], // a person before black
  [0.003, 0,   -0.41, 0.16,   0.32, 0.10,   0.38, 0.19,  -0.07, 0.10,   0.10, 0.10], // dusk, windows lit
  [0.003, 0,    0.38, 0.13,   0.35, 0.09,   0.67, 0.49,   0.19, 0.15,  -0.14, 0.17], // sunset
  [0.0065, 0.5,  0.09, 0.15,   0.31, 0.09,   0.44, 0.25,   0.29, 0.11,  -0.26, 0.11], // rooms by lamplight
  [0.013, 1,    0.67, 0.05,   0.11, 0.08,   0.54, 0.31,  -0.02, 0.10,   0.01, 0.10], // snow
  [0.0075, 0.5,  0.52, 0.08,   0.08, 0.07,   0.22, 0.10,  -0.01, 0.10,   0.00, 0.10], // fog
  [0.0035, 0,    0.49, 0.06,   0.10, 0.06,   0.44, 0.29,   0.00, 0.10,   0.00, 0.10], // white rooms, paper
  [0.003, 0.5,  0.60, 0.06,   0.13, 0.07,   0.70, 0.19,   0.00, 0.10,   0.00, 0.10], // a person before white
];

/** A third wider than all kinds together: what none of them is like. Its level says little, and so it should. */
const OTHER: Row = [0.033, 0, 0.1, 0.45, 0.38, 0.4, 0.5, 0.41, 0.01, 0.15, -0.09, 0.23];

const scaled = (row: Row, by: number): Row => [row[0] * by, ...row.slice(1)] as unknown as Row;
const named = [...ORDINARY, ...SPECIAL_SHARE].reduce((s, [share]) => s + share, 0);
const part = (1 - OTHER[0]) / named;

export const SUBJECTS: readonly Subject[] = [
  ...ORDINARY.map((row) => subject(true)(scaled(row, part))),
  ...SPECIAL_SHARE.map((row) => subject(false)(scaled(row, part))),
  subject(true)(OTHER),
];
