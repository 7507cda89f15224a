/**
 * Finds the weights of the dust finder's second look (extension/engine/dust/weight-table.ts) and prints that file:
 * subjects drawn by lot under two cameras, two lights and two films, with up to 70 specks each, are photographed by the
 * witness; then the weights are those under which the specks and the picture's things are the most probable (logistic
 * regression on broken lines). The subjects of the tests are not among them.
 *
 * Usage: node dist/bench.mjs dust-weights [--subjects N]
 */
import { parseArgs } from "node:util";
import { relativeExposure } from "../../extension/engine/flat-field/exposure.ts";
import { makeLightField } from "../../extension/engine/flat-field/light-field.ts";
import { insideOf } from "../../extension/engine/survey/border.ts";
import { filmPlane } from "../../extension/engine/flat-field/film-plane.ts";
import { candidatesOf } from "../../extension/engine/dust/candidates.ts";
import { firstLook } from "../../extension/engine/dust/classify.ts";
import { termsOf } from "../../extension/engine/dust/weights-of-evidence.ts";
import { discsOf } from "../../extension/engine/dust/specks.ts";
import { quantile } from "../../extension/engine/math/statistics.ts";
import { GOOD_FLARE, halfScan, request, type Rig, SMALL_FORMAT } from "../unit/engine/survey/rig.ts";
import { CAMERA_A, CAMERA_B, PANEL, WARM_PANEL } from "../witness/cameras.ts";
import { photographFilm } from "../witness/camera.ts";
import { solve } from "../witness/colour.ts";
import { scatterDust } from "../witness/dust.ts";
import { develop } from "../witness/film.ts";
import { NORTHLIGHT_400, SKERRY_100 } from "../witness/stocks.ts";
import { trainingSubject } from "./dust-training.ts";

const RIGS: readonly Rig[] = [
  { camera: CAMERA_A, light: PANEL, stock: NORTHLIGHT_400 },
  { camera: CAMERA_B, light: WARM_PANEL, stock: SKERRY_100 },
  { camera: CAMERA_A, light: WARM_PANEL, stock: SKERRY_100 },
  { camera: CAMERA_B, light: PANEL, stock: NORTHLIGHT_400 },
];
/** Specks on the frames of a subject: as many as the tests lay, and by turns none to many. */
const SPECKS = 40;
const OTHER_SPECKS = [0, 2, 5, 10, 18, 28, 70];
/** Specks smaller than 3 pixels, which need not be found, count this much. */
const SMALL = 0.3;
/** Points of a broken line; how much it is held straight, and near 0. */
const POINTS = 6;
const [STRAIGHT, NEAR] = [10, 0.5];

interface Example {
  readonly terms: Readonly<Record<string, number>>;
  readonly dust: boolean;
  readonly counts: number;
}

const blanks = new Map(
  RIGS.map((rig) => {
    const { scan, info } = halfScan(photographFilm(request(rig, "blank"), 90));
    return [rig, { info, field: makeLightField(scan, info) }];
  }),
);

/** What the finder is asked about one subject, and the answers. */
function examplesOf(subject: number): Example[] {
  const rig = RIGS[(subject + (subject >> 2)) % RIGS.length];
  const { info: blankInfo, field } = blanks.get(rig)!;
  const [fine, [wide, high]] = [110, SMALL_FORMAT.picture];
  const scene = trainingSubject(subject, wide * fine, high * fine);
  const film = develop(
    scene,
    rig.stock,
    { format: SMALL_FORMAT, frame: "12", margin: [1, 1], pixelsPerMm: fine },
    1000 + subject,
  );
  return [SPECKS, OTHER_SPECKS[subject % OTHER_SPECKS.length]].flatMap((specks, k) => {
    const dust = scatterDust(SMALL_FORMAT, { specks, smallest: 0.014, largest: 0.06 }, 5000 + 2 * subject + k);
    const taken = photographFilm({ ...request(rig, film), dust }, 6000 + 2 * subject + k);
    const { scan, info } = halfScan(taken);
    const { ratio } = relativeExposure(info, blankInfo);
    const plane = filmPlane(scan, { field, flare: GOOD_FLARE, ratio });
    const look = firstLook(candidatesOf(scan, plane, insideOf(plane, taken.truth.area!, 0.006)), rig.stock.film);
    const scale = taken.width / scan.width;
    return termsOf(look).map((terms, n): Example => {
      const thing = look.things[look.open[n]];
      const discs = discsOf(thing, scan.width);
      const hit = taken.truth.dust.filter(
        (t) =>
          Math.hypot(thing.x * scale - t.x, thing.y * scale - t.y) < Math.max(3, t.radius + 1.5) ||
          discs.some(([x, y, r]) => Math.hypot(x * taken.width - t.x, y * taken.width - t.y) < r * taken.width),
      );
      const small = hit.length > 0 && hit.every((t) => t.radius < 1.5);
      return { terms, dust: hit.length > 0, counts: small ? SMALL : 1 };
    });
  });
}

/** Where a term's line may break: at its quantiles, the outermost hundredths left out. */
function pointsOf(values: Float64Array): number[] {
  const at = Array.from({ length: POINTS }, (_, k) => quantile(values, 0.01 + (0.98 * k) / (POINTS - 1)));
  return [...new Set(at.map((v) => Number(v.toFixed(3))))];
}

/** A row of the regression, as the few columns that are not 0. */
interface Row {
  readonly columns: readonly number[];
  readonly parts: readonly number[];
}

/** Shares of a value between the two points around it. */
function shares(points: readonly number[], value: number): [place: number, second: number] {
  const v = Math.min(points[points.length - 1], Math.max(points[0], value));
  let k = 0;
  while (k < points.length - 2 && v >= points[k + 1]) k++;
  return [k, (v - points[k]) / (points[k + 1] - points[k])];
}

/** Newton's method on the penalised likelihood. */
function regression(rows: readonly Row[], examples: readonly Example[], penalty: readonly number[][]): number[] {
  let b = penalty.map(() => 0);
  for (let round = 0; round < 15; round++) {
    const curvature = penalty.map((row) => [...row]);
    const slope = penalty.map((row) => -row.reduce((s, v, k) => s + v * b[k], 0));
    for (const [i, { columns, parts }] of rows.entries()) {
      const odds = columns.reduce((s, c, k) => s + parts[k] * b[c], 0);
      const p = 1 / (1 + Math.exp(-odds));
      const { counts, dust } = examples[i];
      const weight = counts * p * (1 - p) + 1e-6;
      for (let k = 0; k < columns.length; k++) {
        slope[columns[k]] += counts * ((dust ? 1 : 0) - p) * parts[k];
        for (let m = 0; m < columns.length; m++) curvature[columns[k]][columns[m]] += weight * parts[k] * parts[m];
      }
    }
    const step = solve(curvature, slope);
    b = b.map((v, k) => v + Math.min(3, Math.max(-3, step[k])));
    if (step.every((v) => Math.abs(v) < 1e-3)) break;
  }
  if (b.some((v) => !Number.isFinite(v))) throw new Error("The regression came to no end.");
  return b;
}

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: { subjects: { type: "string", default: "130" } },
});
const examples = Array.from({ length: Number(values.subjects) }, (_, k) => examplesOf(k)).flat();
const names = Object.keys(examples[0].terms);
const points = names.map((name) => pointsOf(Float64Array.from(examples, ({ terms }) => terms[name])));
const starts = points.map((_, k) => points.slice(0, k).reduce((s, p) => s + p.length, 0));
const size = points.reduce((s, p) => s + p.length, 0);
const penalty = Array.from({ length: size + 1 }, () => Array.from({ length: size + 1 }, () => 0));
for (const [k, at] of points.entries())
  for (let i = 0; i < at.length; i++) {
    penalty[starts[k] + i][starts[k] + i] += NEAR;
    if (i === 0 || i === at.length - 1) continue;
    for (const [p, a] of [-1, 0, 1].map((d) => [d, d ? 1 : -2]))
      for (const [q, c] of [-1, 0, 1].map((d) => [d, d ? 1 : -2]))
        penalty[starts[k] + i + p][starts[k] + i + q] += STRAIGHT * a * c;
  }
const rows = examples.map(({ terms }): Row => {
  const columns: number[] = [size];
  const parts: number[] = [1];
  for (const [k, name] of names.entries()) {
    const [place, second] = shares(points[k], terms[name]);
    columns.push(starts[k] + place, starts[k] + place + 1);
    parts.push(1 - second, second);
  }
  return { columns, parts };
});
const found = regression(rows, examples, penalty);
const list = (numbers: readonly number[], digits: number): string =>
  numbers.map((v) => Number(v.toFixed(digits))).join(", ");

console.log(`/**
 * Weights of the kinds of evidence for dust on a colour negative, found on subjects drawn by lot: printed by
 * \`npm run bench -- dust-weights\` (${values.subjects} subjects, ${examples.length} things, ${examples.filter((e) => e.dust).length} of them dust). Each is a broken line
 * from the points \`at\` to their weights, in units of the natural logarithm of odds.
 */

/** The constant of the sum. */
export const BIAS = ${found[size].toFixed(2)};

interface Line {
  readonly at: readonly number[];
  readonly weight: readonly number[];
}

// oxfmt-ignore
export const WEIGHTS = {
${names.map((name, k) => `  ${name}: { at: [${list(points[k], 3)}], weight: [${list(found.slice(starts[k], starts[k] + points[k].length), 2)}] },`).join("\n")}
} as const satisfies Readonly<Record<string, Line>>;
export type TermName = keyof typeof WEIGHTS;`);
