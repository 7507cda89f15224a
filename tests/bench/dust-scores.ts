/**
 * Precision and recall of the dust finder, subject by subject: drawn subjects of the tests under real outlines of dust
 * (tests/reference/dust) or the witness's invented specks.
 *
 * Usage: node dist/bench.mjs dust-scores [--outlines train|tune|heldOut|none] [--film KIND] [--seed N] [--subjects night,portrait]
 */
import { parseArgs } from "node:util";
import type { Film } from "../../extension/engine/types.ts";
import { CAMERA_A, CAMERA_B, PANEL, WARM_PANEL } from "../witness/camera/cameras.ts";
import { scatterDust } from "../witness/faults/dust.ts";
import { type OutlineSet, realDust } from "../witness/faults/dust-outlines.ts";
import { COALFISH_125, LANTERN_64, NORTHLIGHT_400, SKERRY_100, type Stock } from "../witness/film/stocks.ts";
import { type DustScore, scoreOf } from "../unit/engine/survey/dust-score.ts";
import { measuredRoll, type Rig, SMALL_FORMAT } from "../unit/engine/survey/rig.ts";
import { SUBJECTS, type SubjectName } from "../unit/engine/survey/subjects/subjects.ts";

const STOCKS: Readonly<Record<Film, readonly Stock[]>> = {
  "colour-negative": [NORTHLIGHT_400, SKERRY_100],
  "black-and-white-negative": [COALFISH_125, COALFISH_125],
  slide: [LANTERN_64, LANTERN_64],
};

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    outlines: { type: "string", default: "tune" },
    film: { type: "string", default: "colour-negative" },
    seed: { type: "string", default: "1" },
    subjects: { type: "string", default: Object.keys(SUBJECTS).join(",") },
  },
});
const seed = Number(values.seed);
const [first, second] = STOCKS[values.film as Film];
const rigs: readonly Rig[] = [
  { camera: CAMERA_A, light: PANEL, stock: first },
  { camera: CAMERA_B, light: WARM_PANEL, stock: second },
];

const scores = values.subjects.split(",").map((subject, k): DustScore => {
  const score = scoreOf(
    measuredRoll({
      rig: rigs[(k + seed) % rigs.length],
      subjects: [subject as SubjectName],
      fault: (r, i) => {
        if (i < 0) return r;
        const dust =
          values.outlines === "none"
            ? scatterDust(SMALL_FORMAT, { specks: 40, smallest: 0.014, largest: 0.06 }, 31 * seed + k)
            : realDust(SMALL_FORMAT, values.outlines as OutlineSet, 31 * seed + k);
        return { ...r, dust };
      },
    }),
  );
  print(subject, score.counts);
  return score;
});

function print(name: string, { found, right, specks, seen, lines, covered, drawn }: DustScore["counts"]): void {
  const part = (a: number, b: number): string => (b ? (a / b).toFixed(3) : "  -  ");
  console.log(
    `${name.padEnd(12)} found ${String(found).padStart(4)}  precision ${part(right, found)}  specks ${String(specks).padStart(4)}` +
      `  recall ${part(seen, specks)}  lines ${String(lines).padStart(3)}  recall ${part(covered, lines)}  as lines ${part(drawn, lines)}`,
  );
}

const sum = (key: keyof DustScore["counts"]): number => scores.reduce((s, { counts }) => s + counts[key], 0);
print("all", {
  found: sum("found"),
  right: sum("right"),
  specks: sum("specks"),
  seen: sum("seen"),
  lines: sum("lines"),
  covered: sum("covered"),
  drawn: sum("drawn"),
});
