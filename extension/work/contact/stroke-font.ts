/**
 * Digits and capitals as strokes, on a grid 4 wide and 6 high, in the plain manner of numbers on a film's edge. Each
 * stroke is a run of points "xy"; a semicolon lifts the pen.
 */
const STROKES: Readonly<Record<string, string>> = {
  "0": "10 30 41 45 36 16 05 01 10",
  "1": "11 20 26 16 36",
  "2": "01 10 30 41 42 06 46",
  "3": "01 10 30 41 42 33 13 33 44 45 36 16 05",
  "4": "36 30 04 44",
  "5": "40 00 03 33 44 45 36 06",
  "6": "30 10 01 05 16 36 45 44 33 03",
  "7": "00 40 41 16",
  "8": "13 02 01 10 30 41 42 33 13 04 05 16 36 45 44 33",
  "9": "16 36 45 41 30 10 01 02 13 43",
  A: "06 01 10 30 41 46;04 44",
  B: "03 33 44 45 36 06 00 30 41 42 33",
  C: "41 30 10 01 05 16 36 45",
  D: "00 30 41 45 36 06 00",
  E: "40 00 06 46;03 33",
  F: "40 00 06;03 33",
  G: "41 30 10 01 05 16 36 45 43 23",
  H: "00 06;03 43;40 46",
  I: "10 30 20 26 16 36",
  J: "40 45 36 16 05",
  K: "00 06;40 03 46",
  L: "00 06 46",
  M: "06 00 23 40 46",
  N: "06 00 46 40",
  O: "10 30 41 45 36 16 05 01 10",
  P: "06 00 30 41 42 33 03",
  Q: "10 30 41 45 36 16 05 01 10;24 46",
  R: "06 00 30 41 42 33 03;23 46",
  S: "41 30 10 01 02 13 33 44 45 36 16 05",
  T: "00 40;20 26",
  U: "00 05 16 36 45 40",
  V: "00 26 40",
  W: "00 16 23 36 40",
  X: "00 46;40 06",
  Y: "00 23 40;23 26",
  Z: "00 40 06 46",
};

/** SVG path of a frame's name; (x, y) is its top left corner. Characters that are no digit or capital are left out. */
export function edgeLettering(name: string, x: number, y: number, height: number, colour: string): string {
  const unit = height / 6;
  const paths: string[] = [];
  Array.from(name).forEach((letter, i) => {
    const run = STROKES[letter];
    if (!run) return;
    for (const stroke of run.split(";")) {
      const points = stroke.split(" ").map((p) => {
        const px = x + (i * 5.4 + Number(p[0]) * 0.85) * unit;
        return `${px.toFixed(1)} ${(y + Number(p[1]) * unit).toFixed(1)}`;
      });
      paths.push(`M${points.join("L")}`);
    }
  });
  const width = (height * 0.12).toFixed(1);
  return `<path d="${paths.join("")}" fill="none" stroke="${colour}" stroke-width="${width}" stroke-linejoin="round" stroke-linecap="round"/>`;
}
