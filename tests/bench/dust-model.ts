/**
 * Trains the dust classifier and prints extension/engine/dust/model.ts: for each kind of film one logistic regression
 * with a ridge penalty on the terms and their squares. Every fourth subject is left out first, and precision and recall
 * on those go to standard error; the printed model is trained on all.
 *
 * Usage: node dist/bench.mjs dust-model [--film KIND] [--subjects N] [--examples FILE]
 * Examples are kept in FILE, if one is given, and read from it when it is there: photographing them takes longest. With
 * --film the other films' models stay as they are.
 */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import {
  compared,
  isDeep,
  isTermOf,
  logOdds,
  type Model,
  scored,
  sharesOf,
  type TermName,
  type Terms,
  termsOf,
} from "../../extension/engine/dust/classify.ts";
import { solveLinear } from "../../extension/engine/math/least-squares.ts";
import type { Film } from "../../extension/engine/types.ts";
import { type ExampleScan, exampleScans } from "./dust-examples.ts";

/** Subjects of each kind of film. */
const FILMS: Readonly<Record<Film, number>> = { "colour-negative": 110, "black-and-white-negative": 40, slide: 40 };
/** Weight of the penalty on each weight's square, terms being in standard deviations. */
const RIDGE = 1;
/** How often the model is trained: the similarity of blobs depends on what it takes for dust. */
const PASSES = 4;
/** Rounds before the last one, and the log-odds of a blob of which nothing is known. */
const [LAST_ROUND, UNKNOWN] = [2, -1.7];

const { values } = parseArgs({
  args: process.argv.slice(3),
  options: { film: { type: "string" }, subjects: { type: "string" }, examples: { type: "string" } },
});

const films = (Object.keys(FILMS) as Film[]).filter((film) => (values.film ?? film) === film);

/** Only what is deep enough is classified at all. */
function deepOf({ film, candidates, dust, counts, subject }: ExampleScan): ExampleScan {
  const deep = [...candidates.keys()].filter((i) => isDeep(candidates[i]));
  return {
    film,
    subject,
    candidates: deep.map((i) => candidates[i]),
    dust: deep.map((i) => dust[i]),
    counts: deep.map((i) => counts[i]),
  };
}

function photographed(): ExampleScan[] {
  return films.flatMap((film) =>
    Array.from({ length: Number(values.subjects ?? FILMS[film]) }, (_, k) => exampleScans(k, film)).flat(),
  );
}

const kept = values.examples;
const all = kept && existsSync(kept) ? (JSON.parse(readFileSync(kept, "utf8")) as ExampleScan[]) : photographed();
if (kept && !existsSync(kept)) writeFileSync(kept, JSON.stringify(all));

interface Row {
  readonly terms: Partial<Terms>;
  readonly dust: boolean;
  readonly counts: number;
}

/** Terms of all blobs as the model sees them in its last round. */
function rowsOf(scans: readonly ExampleScan[], model: Model | undefined): Row[] {
  return scans.flatMap(({ film, candidates, dust, counts }) => {
    const scan = compared(candidates);
    const odds = model ? logOdds(candidates, model, LAST_ROUND) : new Float64Array(candidates.length).fill(UNKNOWN);
    const shares = sharesOf(odds);
    return candidates.map((_, i): Row => {
      const terms = Object.entries(termsOf(scan, i, shares)).filter(([name]) => isTermOf(film, name as TermName));
      return { terms: Object.fromEntries(terms), dust: dust[i], counts: counts[i] };
    });
  });
}

function trained(scans: readonly ExampleScan[]): Model {
  let model: Model | undefined;
  for (let pass = 0; pass < PASSES; pass++) model = fitted(rowsOf(scans, model));
  return model!;
}

/** Newton's method on the penalised likelihood. */
function fitted(rows: readonly Row[]): Model {
  const names = Object.keys(rows[0].terms) as TermName[];
  const scales = names.map((name): [mean: number, deviation: number] => {
    const mean = rows.reduce((sum, { terms }) => sum + terms[name]!, 0) / rows.length;
    const variance = rows.reduce((sum, { terms }) => sum + (terms[name]! - mean) ** 2, 0) / rows.length;
    return [mean, Math.sqrt(variance) + 1e-6];
  });
  const inputs = rows.map(({ terms }) => {
    const z = names.map((name, k) => scored(terms[name]!, ...scales[k]));
    return Float64Array.from([1, ...z, ...z.map((v) => v * v)]);
  });
  const size = 1 + 2 * names.length;
  let weights = new Float64Array(size);
  for (let round = 0; round < 30; round++) {
    const curvature = Array.from({ length: size }, (_, k) =>
      Array.from({ length: size }, (_, m) => (k === m && k > 0 ? RIDGE : 0)),
    );
    const slope = Array.from(weights, (w, k) => (k > 0 ? -RIDGE * w : 0));
    for (const [i, x] of inputs.entries()) {
      const { dust, counts } = rows[i];
      const p = 1 / (1 + Math.exp(-x.reduce((sum, v, k) => sum + v * weights[k], 0)));
      const part = counts * p * (1 - p) + 1e-9;
      for (let k = 0; k < size; k++) {
        slope[k] += counts * ((dust ? 1 : 0) - p) * x[k];
        for (let m = 0; m <= k; m++) curvature[k][m] += part * x[k] * x[m];
      }
    }
    for (let k = 0; k < size; k++) for (let m = k + 1; m < size; m++) curvature[k][m] = curvature[m][k];
    const step = solveLinear(curvature, slope);
    weights = weights.map((w, k) => w + Math.min(3, Math.max(-3, step[k])));
    if (step.every((v) => Math.abs(v) < 1e-4)) break;
  }
  if (weights.some((w) => !Number.isFinite(w))) throw new Error("The regression came to no end.");
  const terms = Object.fromEntries(
    names.map((name, k) => [name, [...scales[k], weights[1 + k], weights[1 + names.length + k]]]),
  ) as unknown as Model["terms"];
  return { constant: weights[0], terms };
}

/** Precision and recall of specks that count, and how the odds agree with what happened, on subjects that were left out. */
function report(film: Film, model: Model, scans: readonly ExampleScan[]): void {
  const blobs = scans.flatMap(({ candidates, dust, counts }) => {
    const odds = logOdds(candidates, model);
    return candidates.map((candidate, i) => ({
      odds: odds[i],
      dust: dust[i],
      counts: counts[i] === 1,
      line: candidate.component.centreline !== undefined,
    }));
  });
  for (const line of [false, true])
    for (const min of [-0.5, 0, 0.5, 1, 1.5]) {
      const own = blobs.filter((blob) => blob.line === line && (blob.counts || !blob.dust));
      const found = own.filter((blob) => blob.odds > min);
      const right = found.filter((blob) => blob.dust).length;
      const needed = own.filter((blob) => blob.dust).length;
      console.error(
        `${film} ${line ? "lines" : "specks"} log-odds > ${min}: precision ${(right / found.length).toFixed(3)}, recall ${(right / needed).toFixed(3)} of ${needed}`,
      );
    }
  const bins = [0.05, 0.2, 0.4, 0.6, 0.8, 0.95, 1].map((top, k, tops) => {
    const part = blobs.filter(({ odds }) => {
      const p = 1 / (1 + Math.exp(-odds));
      return p <= top && p > (k ? tops[k - 1] : -1);
    });
    const predicted = part.reduce((sum, { odds }) => sum + 1 / (1 + Math.exp(-odds)), 0) / part.length;
    return `${predicted.toFixed(2)}→${(part.filter(({ dust }) => dust).length / part.length).toFixed(2)}`;
  });
  console.error(`${film} mean probability → part that is dust: ${bins.join("  ")}`);
}

const scans = all.map(deepOf).filter(({ candidates }) => candidates.length > 0);
const models = films.map((film) => {
  const own = scans.filter((scan) => scan.film === film);
  const [rest, apart] = [
    own.filter(({ subject }) => subject % 4 !== 3),
    own.filter(({ subject }) => subject % 4 === 3),
  ];
  report(film, trained(rest), apart);
  return { film, own, model: trained(own) };
});

const number = (v: number, digits: number): string => String(Number(v.toFixed(digits)));
console.log(`/**
 * The weights of the dust classifier, printed by \`npm run bench -- dust-model\`: of each term its mean, its standard
 * deviation, its weight and the weight of its square.
 */
// oxfmt-ignore
export const MODELS = {`);
for (const { film, own, model } of models) {
  const candidates = own.reduce((sum, scan) => sum + scan.candidates.length, 0);
  const specks = own.reduce((sum, scan) => sum + scan.dust.filter(Boolean).length, 0);
  console.log(`  /** ${own.length} scans, ${candidates} blobs, ${specks} of them dust. */`);
  console.log(`  "${film}": {\n    constant: ${number(model.constant, 2)},\n    terms: {`);
  for (const [name, [mean, deviation, linear, square]] of Object.entries(model.terms))
    console.log(
      `      ${name}: [${number(mean, 3)}, ${number(deviation, 3)}, ${number(linear, 2)}, ${number(square, 2)}],`,
    );
  console.log("    },\n  },");
}
console.log("} as const;");
