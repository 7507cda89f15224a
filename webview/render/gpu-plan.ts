/** Runs plans over grids of codes with WebGL2; the results stay on the GPU as textures. */
import { FILM_SAMPLES, PRINT_SAMPLES } from "../../extension/engine/plan/table-axes.ts";
import type { Plan } from "../../extension/engine/plan/compile.ts";
import { endsOf, type Warn } from "./clipping.ts";
import { COVER, PLAN, TABLE_WIDTH } from "./shaders.ts";
import type { Grid } from "./source.ts";

/** A result of a plan: 8-bit RGBA, rows in the grid's order. */
export interface Result {
  readonly texture: WebGLTexture;
  readonly frame: WebGLFramebuffer;
  readonly width: number;
  readonly height: number;
  /** Whether its smaller levels are up to date. */
  shrunk: boolean;
}

export interface GpuPlans {
  /** The same plan over the same grid is run once; results are kept for the last few. */
  run(plan: Plan, grid: Grid, warn?: Warn, lost?: Uint8Array): Result;
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
  results: { plan: Plan; warn: Warn; result: Result }[];
}

export function makeGpuPlans(gl: WebGL2RenderingContext): GpuPlans {
  const { program, at } = compile(gl, PLAN);
  const tables = new WeakMap<Plan, { film: WebGLTexture; print: WebGLTexture }>();
  const madeTables: { plan: Plan; film: WebGLTexture; print: WebGLTexture }[] = [];
  const grids = new Map<Grid, OnGpu>();

  function texture(unit: number): WebGLTexture {
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

  /** Each value beside its successor; `samples` a channel, the last one beside itself. */
  function table(values: Float32Array, samples: number): WebGLTexture {
    const rows = Math.ceil(values.length / TABLE_WIDTH);
    const pairs = new Float32Array(rows * TABLE_WIDTH * 2);
    for (let i = 0; i < values.length; i++) {
      pairs[2 * i] = values[i];
      pairs[2 * i + 1] = values[(i + 1) % samples === 0 ? i : i + 1];
    }
    const made = texture(2);
    gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.RG32F, TABLE_WIDTH, rows, 0, gl.RG, gl.FLOAT, pairs);
    return made;
  }

  function tablesOf(plan: Plan): { film: WebGLTexture; print: WebGLTexture } {
    let made = tables.get(plan);
    if (!made) {
      made = { film: table(plan.film, FILM_SAMPLES), print: table(plan.print, PRINT_SAMPLES) };
      tables.set(plan, made);
      madeTables.push({ plan, ...made });
      // A dragged slider makes a plan a picture: only the last few tables stay.
      while (madeTables.length > 2 * MAX_PLANS) {
        const old = madeTables.shift();
        if (!old) break;
        tables.delete(old.plan);
        gl.deleteTexture(old.film);
        gl.deleteTexture(old.print);
      }
    }
    return made;
  }

  function onGpu(grid: Grid): OnGpu {
    let here = grids.get(grid);
    if (!here) {
      const codes = texture(0);
      gl.pixelStorei(gl.UNPACK_ALIGNMENT, 2);
      gl.texImage2D(
        gl.TEXTURE_2D,
        0,
        gl.RGB16UI,
        grid.width,
        grid.height,
        0,
        gl.RGB_INTEGER,
        gl.UNSIGNED_SHORT,
        grid.codes,
      );
      here = { codes, results: [] };
      grids.set(grid, here);
    }
    return here;
  }

  function target(grid: Grid): Result {
    const made = texture(0);
    gl.texStorage2D(
      gl.TEXTURE_2D,
      1 + Math.floor(Math.log2(Math.max(grid.width, grid.height))),
      gl.RGBA8,
      grid.width,
      grid.height,
    );
    const frame = gl.createFramebuffer();
    gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
    gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.TEXTURE_2D, made, 0);
    return { texture: made, frame, width: grid.width, height: grid.height, shrunk: false };
  }

  function drop(result: Result): void {
    gl.deleteTexture(result.texture);
    gl.deleteFramebuffer(result.frame);
  }

  return {
    run(plan, grid, warn = "none", lost) {
      const here = onGpu(grid);
      const known = here.results.find((r) => r.plan === plan && r.warn === warn);
      if (known) return known.result;
      const spare = here.results.length >= MAX_PLANS ? here.results.shift()?.result : undefined;
      const result = spare ?? target(grid);
      result.shrunk = false;
      if (lost && !here.lost) {
        here.lost = texture(1);
        gl.pixelStorei(gl.UNPACK_ALIGNMENT, 1);
        gl.texImage2D(gl.TEXTURE_2D, 0, gl.R8UI, grid.width, grid.height, 0, gl.RED_INTEGER, gl.UNSIGNED_BYTE, lost);
      }
      const { film, print } = tablesOf(plan);
      gl.useProgram(program);
      for (const [unit, name, bound] of [
        [0, "codes", here.codes],
        [1, "lost", here.lost ?? here.codes],
        [2, "film", film],
        [3, "print", print],
      ] as const) {
        gl.activeTexture(gl.TEXTURE0 + unit);
        gl.bindTexture(gl.TEXTURE_2D, bound);
        gl.uniform1i(at(name), unit);
      }
      // Shader matrices are column by column, ours row by row: transposed on the way.
      gl.uniformMatrix3fv(at("unmix"), true, [...plan.unmix]);
      gl.uniformMatrix3fv(at("colour"), true, [...plan.colour]);
      gl.uniform3fv(at("offset"), [...plan.offset]);
      gl.uniform3fv(at("weights"), [...plan.weights]);
      gl.uniform1i(at("mono"), plan.channels === 1 ? 1 : 0);
      gl.uniform1i(at("warn"), warn === "none" ? 0 : 1);
      // Half a code inside the ends; without the print's warnings the ends lie where nothing is.
      const { black, white } = endsOf(plan);
      gl.uniform1f(at("black"), warn === "print" ? (black + 0.5) / 255 : -1);
      gl.uniform1f(at("white"), warn === "print" ? (white - 0.5) / 255 : 2);
      gl.bindFramebuffer(gl.FRAMEBUFFER, result.frame);
      gl.viewport(0, 0, grid.width, grid.height);
      gl.disable(gl.SCISSOR_TEST);
      gl.drawArrays(gl.TRIANGLES, 0, 3);
      here.results.push({ plan, warn, result });
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
        for (const { result } of here.results) drop(result);
        grids.delete(grid);
      }
    },
  };
}
