/** Runs the same plans on the GPU and on the CPU, as the panel and as a render does, and says how far they are apart. Driven by gpu-against-cpu.test.ts. */
import { runCodes8, runPlan8 } from "../../extension/engine/plan/run.ts";
import type { FrameLook, OutputSpace, Rgb } from "../../extension/engine/types.ts";
import type { Framing } from "../../extension/engine/image/geometry.ts";
import { NODE_VALUES, readGrid } from "../../extension/engine/local/grid.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
import { runLocal } from "../../extension/engine/plan/run-local.ts";
import { PROOF_SIDE, PROOF_VALUES } from "../../extension/engine/colour/proof-table.ts";
import { type Proof, PROOF_SPACE, runProofRows } from "../../webview/render/proof.ts";
import { gridRows, runLocalRows } from "../../webview/render/local-pass.ts";
import { makeGpuPlans } from "../../webview/render/gpu-plan.ts";
import { type Grid, transmittanceOf } from "../../webview/render/source.ts";
import { planFor, type View } from "../../webview/render/view-plans.ts";

export interface Case {
  readonly look: FrameLook;
  readonly space: OutputSpace;
  readonly view: View;
  readonly weights?: Rgb;
  /** Where the picture lies, for looks with local areas. */
  readonly framing?: Framing;
}

export interface Apart {
  /** Greatest difference of any sample, in 1/255. */
  readonly worst: number;
  /** Part of the samples that differ at all. */
  readonly differing: number;
  /** Distinct values seen: an all-black picture proves nothing. */
  readonly distinct: number;
  /** Mean code. */
  readonly mean: number;
}

/** Two executors of a proof. */
export interface ProofsApart {
  /** Greatest difference of any sample, in 1/255. */
  readonly worst: number;
  readonly distinct: number;
  /** Part of the pixels that are marked, and of those that only one of the two marks. */
  readonly marked: number;
  readonly differing: number;
}

declare global {
  interface Window {
    compareProofs(codes: number[], width: number, cases: Case[]): ProofsApart[];
    compareExecutors(codes: number[], width: number, cases: Case[]): Apart[];
  }
}

const gl = document.createElement("canvas").getContext("webgl2");
if (!gl) throw new Error("This browser has no WebGL2.");
const plans = makeGpuPlans(gl);

/** A table with the bends of a paper's: other colours, less contrast, and colours that it has not. */
const PROOF: Proof = { key: "test", table: bentTable() };

function bentTable(): Uint16Array {
  const table = new Uint16Array(PROOF_SIDE ** 3 * PROOF_VALUES);
  const level = (i: number): number => i / (PROOF_SIDE - 1);
  for (let b = 0, k = 0; b < PROOF_SIDE; b++)
    for (let g = 0; g < PROOF_SIDE; g++)
      for (let r = 0; r < PROOF_SIDE; r++, k += PROOF_VALUES) {
        const [x, y, z] = [level(r), level(g), level(b)];
        const chroma = Math.max(x, y, z) - Math.min(x, y, z);
        const print = [
          0.1 + 0.85 * x ** 1.4 * (1 - 0.2 * y),
          0.12 + 0.8 * Math.sin(1.5 * y),
          0.08 + 0.7 * (0.8 * z + 0.2 * x),
        ];
        table.set(
          [...print, Math.max(0, chroma - 0.1) * 0.2].map((v) => Math.round(65535 * v)),
          k,
        );
      }
  return table;
}

window.compareProofs = (codes, width, cases) => {
  const grid: Grid = { width, height: codes.length / 3 / width, codes: Uint16Array.from(codes) };
  const { height } = grid;
  const n = width * height;
  return cases.map(({ look, weights, framing }) => {
    const at = framing && { scanWidth: 9 * width, scanHeight: 9 * height, framing };
    const plan = planFor("print", look, PROOF_SPACE, weights, at);
    const cpu = new Uint8ClampedArray(n * 4);
    const rows = { width, height, codes: grid.codes, codesAt: (y: number) => y * width, pixels: cpu };
    const kinds = runProofRows(plan, PROOF, { ...rows, placeOf: gridRows(grid, PART) });
    const gpu = plans.read(plans.run(plan, grid, { warn: "print", lost: new Uint8Array(n), proof: PROOF }, PART));
    let [worst, marked, differing] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      for (let c = 4 * i; c < 4 * i + 3; c++) worst = Math.max(worst, Math.abs(cpu[c] - gpu[c]));
      if (kinds[i]) marked++;
      if (kinds[i] !== Math.round((255 - gpu[4 * i + 3]) / 16)) differing++;
    }
    return { worst, marked: marked / n, differing: differing / n, distinct: new Set(cpu).size };
  });
};

/** The grid lies on a part of the scan, as the panel's detail does. */
const PART = { left: 0.2, top: 0.1, width: 0.7, height: 0.85 };

/** Local areas by the loop that writes files, from transmittance. */
function writeLocal(plan: Plan, t: Float32Array, written: Uint8ClampedArray, { width, height }: Grid): void {
  if (!plan.local) return;
  const adjustments = new Float32Array(width * NODE_VALUES);
  const placeOf = gridRows({ width, height }, PART);
  const out = new Uint8Array(written.buffer);
  for (let y = 0; y < height; y++) {
    readGrid(plan.local, placeOf(y), width, adjustments);
    runLocal(plan, 255, { n: width, t, from: y * width * 3, adjustments, out, to: y * width * 4, stride: 4 });
  }
}

window.compareExecutors = (codes, width, cases) => {
  const grid: Grid = { width, height: codes.length / 3 / width, codes: Uint16Array.from(codes) };
  const n = grid.width * grid.height;
  const t = transmittanceOf(grid);
  return cases.map(({ look, space, view, weights, framing }) => {
    const at = framing && { scanWidth: 9 * grid.width, scanHeight: 9 * grid.height, framing };
    const plan = planFor(view, look, space, weights, at);
    const written = new Uint8ClampedArray(n * 4);
    runPlan8(plan, t, written, n);
    writeLocal(plan, t, written, grid);
    const cpu = new Uint8ClampedArray(n * 4);
    runCodes8(plan, grid.codes, cpu, n);
    const { height } = grid;
    const placeOf = gridRows(grid, PART);
    runLocalRows(plan, { width, height, codes: grid.codes, codesAt: (y) => y * width, pixels: cpu, placeOf });
    const gpu = plans.read(plans.run(plan, grid, { warn: "none" }, PART));
    let worst = 0;
    let differing = 0;
    for (let i = 0; i < cpu.length; i++) {
      const apart = Math.abs(written[i] - gpu[i]);
      if (apart > 0) differing++;
      worst = Math.max(worst, apart, Math.abs(written[i] - cpu[i]));
    }
    return {
      worst,
      differing: differing / cpu.length,
      distinct: new Set(cpu).size,
      mean: cpu.reduce((a, b) => a + b, 0) / cpu.length,
    };
  });
};
