/**
 * Precision and recall of the dust finder, subject by subject: drawn subjects of the tests under real outlines of dust
 * (tests/reference/dust) or the witness's invented specks.
 *
 * Usage: node dist/bench.mjs dust-scores [--outlines train|tune|heldOut|none] [--seed N] [--subjects night,portrait]
 */
import { parseArgs } from "node:util";
import { CAMERA_A, CAMERA_B, PANEL, WARM_PANEL } from "../witness/cameras.ts";
import { scatterDust } from "../witness/dust.ts";
import { type OutlineSet, realDust } from "../witness/dust-outlines.ts";
import { NORTHLIGHT_400, SKERRY_100 } from "../witness/stocks.ts";
import { type DustScore, scoreOf } from "../unit/engine/survey/dust-score.ts";
import { measuredRoll, type Rig, SMALL_FORMAT } from "../unit/engine/survey/rig.ts";
import { SUBJECTS, type SubjectName } from "../unit/engine/survey/subjects/subjects.ts";

const RIGS: readonly Rig[] = [
  { camera: CAMERA_A, light: PANEL, stock: NORTHLIGHT_400 },
  { camera: CAMERA_B, light: WARM_PANEL, stock: SKERRY_100 },
];

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: {
    outlines: { type: "string", default: "tune" },
    seed: { type: "string", default: "1" },
    subjects: { type: "string", default: Object.keys(SUBJECTS).join(",") },
  },
});
const seed = Number(values.seed);

const scores = values.subjects.split(",").map((subject, k): DustScore => {
  const score = scoreOf(
    measuredRoll({
      rig: RIGS[(k + seed) % RIGS.length],
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
