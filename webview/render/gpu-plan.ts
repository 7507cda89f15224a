/** Runs plans over grids of codes with WebGL2; the results stay on the GPU as textures. */
import type { Plan } from "../../extension/engine/plan/compile.ts";
import { PRINT_SAMPLES } from "../../extension/engine/plan/table-axes.ts";
import { endsOf, type Warn } from "./clipping.ts";
import { HOLDER_EDGE } from "./holder.ts";
import { COVER, PLAN } from "./shaders.ts";
import {
  localNodes,
  makeCodes,
  makeResult,
  makeSaturated,
  planTables,
  PROOF_UNIT,
  proofTexture,
  type Result,
} from "./gpu-textures.ts";
import type { Proof } from "./proof.ts";
import type { Grid, Source } from "./source.ts";

/** The part of the scan that a grid lies on, in fractions of it. */
type Part = Source["part"];
const WHOLE: Part = { left: 0, top: 0, width: 1, height: 1 };

/** What a result marks beside its colours. */
export interface Marks {
  readonly warn: Warn;
  /** Saturated pixels of the scan, a byte each. */
  readonly lost?: Uint8Array;
  /** Codes whose sum is no greater are the holder's (holder.ts); absent where it is not looked for. */
  readonly holder?: number;
  /** Draws the print as it looks on paper. */
  readonly proof?: Proof;
}

export interface GpuPlans {
  /** The same plan over the same grid is run once; results are kept for the last few. */
  run(plan: Plan, grid: Grid, marks?: Marks, part?: Part): Result;
  /** RGBA bytes of a result, row by row in the grid's order. */
  read(result: Result): Uint8Array;
  /** Lets everything go that belongs to grids other than these. */
  keep(grids: readonly Grid[]): void;
}

export function compile(
  gl: WebGL2RenderingContext,
  fragment: string,
): { program: WebGLProgram; at: (name: string) => WebGLUniformLocation | null } {
  const program = gl.createProgram();
  for (const [type, text] of [
    [gl.VERTEX_SHADER, COVER],
    [gl.FRAGMENT_SHADER, fragment],
  ] as const) {
    const shader = gl.createShader(type);
    if (!shader) throw new Error("The graphics driver gave no shader.");
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
    if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS) && !gl.isContextLost())
      throw new Error(`The graphics driver refused a shader: ${gl.getShaderInfoLog(shader)}`);
  }
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS) && !gl.isContextLost())
    throw new Error(`The graphics driver refused a program: ${gl.getProgramInfoLog(program)}`);
  const places = new Map<string, WebGLUniformLocation | null>();
  const at = (name: string): WebGLUniformLocation | null => {
    if (!places.has(name)) places.set(name, gl.getUniformLocation(program, name));
    return places.get(name) ?? null;
  };
  return { program, at };
}

/** Results that are kept a grid: both sides of a comparison, and one that was there before. */
const MAX_PLANS = 3;

interface OnGpu {
  readonly codes: WebGLTexture;
  lost?: WebGLTexture;
  results: { plan: Plan; warn: Warn; holder: number; proof?: Proof; result: Result }[];
}

export function makeGpuPlans(gl: WebGL2RenderingContext): GpuPlans {
  const { program, at } = compile(gl, PLAN);
  // A dragged slider makes a plan a picture: only the last few tables stay.
  const tablesOf = planTables(gl, 2 * MAX_PLANS);
  const nodesOf = localNodes(gl, 2 * MAX_PLANS);
  const tableOf = proofTexture(gl);
  const grids = new Map<Grid, OnGpu>();

  function onGpu(grid: Grid): OnGpu {
    let here = grids.get(grid);
    if (!here) grids.set(grid, (here = { codes: makeCodes(gl, grid), results: [] }));
    return here;
  }

  function bind(here: OnGpu, plan: Plan): void {
    const { film, print } = tablesOf(plan);
    const nodes = plan.local ? nodesOf(plan.local) : film;
    for (const [unit, name, bound] of [
      [0, "codes", here.codes],
      [1, "lost", here.lost ?? here.codes],
      [2, "film", film],
      [3, "print", print],
      [4, "nodes", nodes],
    ] as const) {
      gl.activeTexture(gl.TEXTURE0 + unit);
      gl.bindTexture(gl.TEXTURE_2D, bound);
      gl.uniform1i(at(name), unit);
    }
  }

  return {
    run(plan, grid, { warn, lost, holder = -1, proof } = { warn: "none" }, part = WHOLE) {
      const here = onGpu(grid);
      const known = here.results.find(
        (r) => r.plan === plan && r.warn === warn && r.holder === holder && r.proof === proof,
      );
      if (known) return known.result;
      const spare = here.results.length >= MAX_PLANS ? here.results.shift()?.result : undefined;
      const result = spare ?? makeResult(gl, grid);
      result.shrunk = false;
      if (lost) here.lost ??= makeSaturated(gl, grid, lost);
      gl.useProgram(program);
      bind(here, plan);
      setUniforms(gl, at, plan, warn);
      gl.uniform1f(at("holder"), holder);
      gl.uniform1f(at("reach"), Math.ceil(HOLDER_EDGE * Math.max(grid.width / part.width, grid.height / part.height)));
      setLocal(gl, at, plan, grid, part);
      gl.uniform1i(at("paper"), PROOF_UNIT);
      gl.uniform1i(at("proofs"), proof ? 1 : 0);
      if (proof) {
        gl.activeTexture(gl.TEXTURE0 + PROOF_UNIT);
        gl.bindTexture(gl.TEXTURE_3D, tableOf(proof.table));
      }
      gl.bindFramebuffer(gl.FRAMEBUFFER, result.frame);
      gl.viewport(0, 0, grid.width, grid.height);
      gl.disable(gl.SCISSOR_TEST);
      gl.drawArrays(gl.TRIANGLES, 0, 3);
      here.results.push({ plan, warn, holder, proof, result });
      return result;
    },
    read(result) {
      const bytes = new Uint8Array(result.width * result.height * 4);
      gl.bindFramebuffer(gl.FRAMEBUFFER, result.frame);
      gl.readPixels(0, 0, result.width, result.height, gl.RGBA, gl.UNSIGNED_BYTE, bytes);
      return bytes;
    },
    keep(wanted) {
      for (const [grid, here] of grids) {
        if (wanted.includes(grid)) continue;
        gl.deleteTexture(here.codes);
        if (here.lost) gl.deleteTexture(here.lost);
        for (const { result } of here.results) {
          gl.deleteTexture(result.texture);
          gl.deleteFramebuffer(result.frame);
        }
        grids.delete(grid);
      }
    },
  };
}

/** Hands over where the nodes of local exposure lie under the grid's pixels. */
function setLocal(
  gl: WebGL2RenderingContext,
  at: (name: string) => WebGLUniformLocation | null,
  { local }: Plan,
  grid: Grid,
  part: Part,
): void {
  gl.uniform1i(at("areas"), local ? 1 : 0);
  if (!local) return;
  const [columns, rows] = [local.columns - 1, local.rows - 1];
  gl.uniform2i(at("lastNode"), columns, rows);
  gl.uniform4f(
    at("toNodes"),
    (part.width / grid.width / local.width) * columns,
    (part.height / grid.height / local.height) * rows,
    ((part.left - local.left) / local.width) * columns,
    ((part.top - local.top) / local.height) * rows,
  );
}

/** Hands a plan's numbers to the shader, and where its warnings begin. */
function setUniforms(
  gl: WebGL2RenderingContext,
  at: (name: string) => WebGLUniformLocation | null,
  plan: Plan,
  warn: Warn,
): void {
  // Shader matrices are column by column, ours row by row: transposed on the way.
  gl.uniformMatrix3fv(at("unmix"), true, [...plan.unmix]);
  gl.uniformMatrix3fv(at("colour"), true, [...plan.colour]);
  gl.uniform3fv(at("offset"), [...plan.offset]);
  gl.uniform3fv(at("weights"), [...plan.weights]);
  gl.uniform1i(at("mono"), plan.mono ? 1 : 0);
  gl.uniform1i(at("tinted"), plan.print.length > PRINT_SAMPLES ? 1 : 0);
  gl.uniform1i(at("warn"), warn === "none" ? 0 : 1);
  // Half a code inside the ends; without the print's warnings the ends lie where nothing is.
  const { black, white } = endsOf(plan);
  gl.uniform1f(at("black"), warn === "print" ? (black + 0.5) / 255 : -1);
  gl.uniform1f(at("white"), warn === "print" ? (white - 0.5) / 255 : 2);
}
