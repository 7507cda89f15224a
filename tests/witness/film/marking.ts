/** Edge markings: frame number and stock name, burned into the rebate as a latent image. */

// Five columns by seven rows; each string is a row, "#" is light.
const GLYPHS: Record<string, string> = {
  "0": ".###.#...##..###.#.###..##...#.###.",
  "1": "..#...##....#....#....#....#...###.",
  "2": ".###.#...#....#...#...#...#...#####",
  "3": "#####...#...#.....#....##...#.###..",
  "4": "...#...##..#.#.#..#.#####...#....#.",
  "5": "######....####.....#....##...#.###.",
  "6": "..##..#...#....####.#...##...#.###.",
  "7": "#####....#...#...#...#....#....#...",
  "8": ".###.#...##...#.###.#...##...#.###.",
  "9": ".###.#...##...#.####....#...#..##..",
  A: ".###.#...##...#######...##...##...#",
  B: "####.#...##...#####.#...##...#####.",
  C: ".###.#...##....#....#....#...#.###.",
  E: "######....#....####.#....#....#####",
  F: "######....#....####.#....#....#....",
  G: ".###.#...##....#.####...##...#.####",
  H: "#...##...##...#######...##...##...#",
  I: ".###...#....#....#....#....#...###.",
  K: "#...##..#.#.#..##...#.#..#..#.#...#",
  L: "#....#....#....#....#....#....#####",
  N: "#...###..##.#.##..###...##...##...#",
  O: ".###.#...##...##...##...##...#.###.",
  R: "####.#...##...#####.#.#..#..#.#...#",
  S: ".#####....#.....###.....#....#####.",
  T: "#####..#....#....#....#....#....#..",
  Y: "#...##...#.#.#...#....#....#....#..",
  ">": "#.....#.....#.....#...#...#...#....",
  " ": "...................................",
};

const ADVANCE = 6;

/** Width over height of a line of text. */
export function textWidth(text: string): number {
  return (text.length * ADVANCE - 1) / 7;
}

/** True where the text has light; x along the line and y down, in letter heights from its top left corner. */
export function textAt(text: string, x: number, y: number): boolean {
  const column = Math.floor(x * 7);
  const row = Math.floor(y * 7);
  if (row < 0 || row > 6 || column < 0) return false;
  const letter = text[Math.floor(column / ADVANCE)];
  const within = column % ADVANCE;
  if (letter === undefined || within > 4) return false;
  const glyph = GLYPHS[letter.toUpperCase()];
  if (!glyph) throw new Error(`The edge marking "${text}" has a letter that the witness cannot draw: "${letter}".`);
  return glyph[row * 5 + within] === "#";
}
