/** Textures of plans on the graphics processor: codes, tables, and the pictures that plans draw into. */
import { PROOF_SIDE, type ProofTable } from "../../extension/engine/colour/proof-table.ts";
import { type LocalGrid, NODE_VALUES } from "../../extension/engine/local/grid.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
import { FILM_SAMPLES, PRINT_SAMPLES } from "../../extension/engine/plan/table-axes.ts";
import { TABLE_WIDTH } from "./shaders.ts";
import type { Grid } from "./source.ts";

type Gl = WebGL2RenderingContext;

/** A result of a plan: 8-bit RGBA, rows in the grid's order. */
export interface Result {
  readonly texture: WebGLTexture;
  readonly frame: WebGLFramebuffer;
  readonly width: number;
  readonly height: number;
  /** Whether its smaller levels are up to date. */
  shrunk: boolean;
}

/** An empty texture, bound to a unit and read without interpolation. */
function makeTexture(gl: Gl, unit: number): WebGLTexture {
  const made = gl.createTexture();
  gl.activeTexture(gl.TEXTURE0 + unit);
  gl.bindTexture(gl.TEXTURE_2D, made);
  for (const [name, value] of [
    [gl.TEXTURE_MIN_FILTER, gl.NEAREST],
    [gl.TEXTURE_MAG_FILTER, gl.NEAREST],
    [gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE],
    [gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE],
  ])
    gl.texParameteri(gl.TEXTURE_2D, name, value);
  return made;
}

/** A grid's codes: three 16-bit integers a pixel. */
export function makeCodes(gl: Gl, { width, height, codes }: Grid): WebGLTexture {
  const made = makeTexture(gl, 0);
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 2);
  gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGB16UI, width, height, 0, gl.RGB_INTEGER, gl.UNSIGNED_SHORT, codes);
  return made;
}

/** A byte a pixel: which pixels are saturated. */
export function makeSaturated(gl: Gl, { width, height }: Grid, lost: Uint8Array): WebGLTexture {
  const made = makeTexture(gl, 1);
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 1);
  gl.texImage2D(gl.TEXTURE_2D, 0, gl.R8UI, width, height, 0, gl.RED_INTEGER, gl.UNSIGNED_BYTE, lost);
  return made;
}

/** An empty picture of a grid's size, with its smaller levels, that a plan draws into. */
export function makeResult(gl: Gl, { width, height }: Grid): Result {
  const texture = makeTexture(gl, 0);
  gl.texStorage2D(gl.TEXTURE_2D, 1 + Math.floor(Math.log2(Math.max(width, height))), gl.RGBA8, width, height);
  const frame = gl.createFramebuffer();
  gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
  gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, texture, 0);
  return { texture, frame, width, height, shrunk: false };
}

/** Each value beside its successor; `samples` a channel, the last one beside itself. */
function makeTable(gl: Gl, values: Float32Array, samples: number): WebGLTexture {
  const rows = Math.ceil(values.length / TABLE_WIDTH);
  const pairs = new Float32Array(rows * TABLE_WIDTH * 2);
  for (let i = 0; i < values.length; i++) {
    pairs[2 * i] = values[i];
    pairs[2 * i + 1] = values[(i + 1) % samples === 0 ? i : i + 1];
  }
  const made = makeTexture(gl, 2);
  gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4);
  gl.texImage2D(gl.TEXTURE_2D, 0, gl.RG32F, TABLE_WIDTH, rows, 0, gl.RG, gl.FLOAT, pairs);
  return made;
}

interface PlanTables {
  readonly film: WebGLTexture;
  readonly print: WebGLTexture;
}

/** Returns a function that makes a plan's tables once, and deletes those of older plans beyond the last `count`. */
export function planTables(gl: Gl, count: number): (plan: Plan) => PlanTables {
  const tables = new Map<Plan, PlanTables>();
  return (plan) => {
    const known = tables.get(plan);
    if (known) return known;
    const made = { film: makeTable(gl, plan.film, FILM_SAMPLES), print: makeTable(gl, plan.print, PRINT_SAMPLES) };
    tables.set(plan, made);
    for (const [old, { film, print }] of tables) {
      if (tables.size <= count) break;
      tables.delete(old);
      gl.deleteTexture(film);
      gl.deleteTexture(print);
    }
    return made;
  };
}

/** Returns a function that makes the texture of a proof's table; the last one is kept. */
export function proofTexture(gl: Gl): (table: ProofTable) => WebGLTexture {
  let kept: { table: ProofTable; texture: WebGLTexture } | undefined;
  return (table) => {
    if (kept?.table === table) return kept.texture;
    if (kept) gl.deleteTexture(kept.texture);
    const texture = gl.createTexture();
    gl.activeTexture(gl.TEXTURE0 + PROOF_UNIT);
    gl.bindTexture(gl.TEXTURE_3D, texture);
    for (const name of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER])
      gl.texParameteri(gl.TEXTURE_3D, name, gl.NEAREST);
    const [n, format, type] = [PROOF_SIDE, gl.RGBA_INTEGER, gl.UNSIGNED_SHORT];
    gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4);
    gl.texImage3D(gl.TEXTURE_3D, 0, gl.RGBA16UI, n, n, n, 0, format, type, table);
    kept = { table, texture };
    return texture;
  };
}
/** The texture unit of a proof's table: a unit of its own, for no two kinds of textures may be on one. */
export const PROOF_UNIT = 5;

/** Returns a function that makes the texture of a grid of local exposure once, two texels a node; the last `count` are kept. */
export function localNodes(gl: Gl, count: number): (grid: LocalGrid) => WebGLTexture {
  const kept = new Map<LocalGrid, WebGLTexture>();
  return (grid) => {
    const known = kept.get(grid);
    if (known) return known;
    const { columns, rows, values } = grid;
    const texels = new Float32Array(columns * rows * 8);
    for (let i = 0, k = 0; k < values.length; i += 8, k += NODE_VALUES) {
      texels.set(values.subarray(k, k + 4), i);
      texels[i + 4] = values[k + 4];
    }
    const made = makeTexture(gl, 4);
    gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA32F, 2 * columns, rows, 0, gl.RGBA, gl.FLOAT, texels);
    kept.set(grid, made);
    for (const [old, texture] of kept) {
      if (kept.size <= count) break;
      kept.delete(old);
      gl.deleteTexture(texture);
    }
    return made;
  };
}
