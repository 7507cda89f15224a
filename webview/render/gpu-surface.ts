/** Shows scenes with WebGL2: plans over the grids first, then each result laid on the canvas. */
import { chained, growth, inverse, moving, scaling, shaderMatrix, type Affine } from "../state/affine.ts";
import { compile, makeGpuPlans } from "./gpu-plan.ts";
import type { Result } from "./gpu-textures.ts";
import { LAY } from "./shaders.ts";
import type { Grid, Source } from "./source.ts";
import { levelFor, type Pane, saturatedPixels, type Scene, type Surface } from "./surface.ts";

/**
 * Whether WebGL is only imitated on the processor. Then the CPU path is the better one: it is two to three times as fast
 * (tests/bench/slider.ts), and it does not hold up the page.
 */
export function isSoftwareGl(): boolean {
  const gl = document.createElement("canvas").getContext("webgl2");
  if (!gl) return false;
  const info = gl.getExtension("WEBGL_debug_renderer_info");
  const renderer = String(gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER));
  gl.getExtension("WEBGL_lose_context")?.loseContext();
  return /swiftshader|llvmpipe|softpipe|software|basic render/i.test(renderer);
}

/** Sets the colours that the canvas is shown in. @returns the space that the browser agreed to */
function chooseSpace(gl: WebGL2RenderingContext, wide: boolean): "srgb" | "p3" {
  if (!("drawingBufferColorSpace" in gl)) return "srgb";
  gl.drawingBufferColorSpace = wide ? "display-p3" : "srgb";
  return gl.drawingBufferColorSpace === "display-p3" ? "p3" : "srgb";
}

/** Shaders count canvas rows from below. */
const flipped = (height: number): Affine => chained(scaling(1, -1), moving(0, height));

/** From the canvas to the unit square of a source's part of the scan. */
function canvasToLayer({ toCanvas }: Pane, { part, scanWidth, scanHeight }: Source, height: number): Affine {
  return chained(
    flipped(height),
    inverse(toCanvas),
    moving(-part.left * scanWidth, -part.top * scanHeight),
    scaling(1 / (part.width * scanWidth), 1 / (part.height * scanHeight)),
  );
}

/** Binds a result as the picture to be laid, with its smaller levels where it is drawn smaller. */
function bindPicture(gl: WebGL2RenderingContext, result: Result, toLayer: Affine): void {
  gl.activeTexture(gl.TEXTURE0);
  gl.bindTexture(gl.TEXTURE_2D, result.texture);
  const shrinks = growth(toLayer) * Math.sqrt(result.width * result.height) > 1.05;
  if (shrinks && !result.shrunk) {
    gl.generateMipmap(gl.TEXTURE_2D);
    result.shrunk = true;
  }
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, shrinks ? gl.LINEAR_MIPMAP_LINEAR : gl.LINEAR);
  gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.LINEAR);
}

/** What a plan made of a source for a pane. */
interface Run {
  readonly pane: Pane;
  readonly source: Source;
  readonly result: Result;
}

/** @returns undefined where the browser has no WebGL2 */
export function makeGpuSurface(canvas: HTMLCanvasElement, wide: boolean): Surface | undefined {
  const gl = canvas.getContext("webgl2", {
    alpha: false,
    antialias: false,
    depth: false,
    powerPreference: "high-performance",
  });
  if (!gl) return undefined;
  const space = chooseSpace(gl, wide);
  const plans = makeGpuPlans(gl);
  const { program, at } = compile(gl, LAY);
  const saturated = new WeakMap<Grid, Uint8Array>();
  let shown: readonly Source[] = [];
  let prepared: readonly Source[] = [];
  const keepInUse = (): void => plans.keep([...shown, ...prepared].flatMap(({ levels }) => levels));

  function saturatedOn(source: Source, level: number): Uint8Array {
    const grid = source.levels[level];
    let made = saturated.get(grid);
    if (!made) saturated.set(grid, (made = saturatedPixels(source, level)));
    return made;
  }

  const runAll = ({ panes, layers }: Scene): readonly Run[] =>
    panes.flatMap((pane) => layers.map((source) => ({ pane, source, result: run(pane, source) })));

  const run = (pane: Pane, source: Source): Result => {
    const level = levelFor(source, growth(pane.toCanvas));
    const lost = pane.warn === "none" ? undefined : saturatedOn(source, level);
    const marks = { warn: pane.warn, lost, holder: pane.holder?.limit, proof: pane.proof };
    return plans.run(pane.plan, source.levels[level], marks, source.part);
  };

  const lay = (pane: Pane, source: Source, result: Result, { height, ratio = 1 }: Scene): void => {
    const { x, y, width: w, height: h } = pane.box;
    gl.scissor(Math.round(x), Math.round(height - y - h), Math.round(w), Math.round(h));
    const toLayer = canvasToLayer(pane, source, height);
    bindPicture(gl, result, toLayer);
    gl.uniform1i(at("picture"), 0);
    gl.uniformMatrix3fv(at("toLayer"), false, shaderMatrix(toLayer));
    gl.uniformMatrix3fv(at("toPicture"), false, shaderMatrix(chained(flipped(height), pane.toPicture)));
    const toCrop = pane.holder ? pane.holder.toCrop : pane.toPicture;
    gl.uniformMatrix3fv(at("toCrop"), false, shaderMatrix(chained(flipped(height), toCrop)));
    gl.uniform1f(at("height"), height);
    gl.uniform1f(at("ratio"), ratio);
    gl.drawArrays(gl.TRIANGLES, 0, 3);
  };

  return {
    kind: "gpu",
    space,
    async draw(scene) {
      if (gl.isContextLost()) return;
      const [width, height] = [Math.max(1, scene.width), Math.max(1, scene.height)];
      if (canvas.width !== width) canvas.width = width;
      if (canvas.height !== height) canvas.height = height;
      const runs = runAll(scene);
      gl.bindFramebuffer(gl.FRAMEBUFFER, null);
      gl.viewport(0, 0, width, height);
      gl.disable(gl.SCISSOR_TEST);
      gl.clearColor(scene.surround, scene.surround, scene.surround, 1);
      gl.clear(gl.COLOR_BUFFER_BIT);
      gl.useProgram(program);
      gl.enable(gl.SCISSOR_TEST);
      for (const { pane, source, result } of runs) lay(pane, source, result, { ...scene, height });
      gl.disable(gl.SCISSOR_TEST);
      shown = scene.layers;
      keepInUse();
    },
    prepare(scenes) {
      if (gl.isContextLost()) return;
      scenes.forEach(runAll);
      prepared = scenes.flatMap(({ layers }) => layers);
      keepInUse();
    },
    dispose() {
      gl.getExtension("WEBGL_lose_context")?.loseContext();
    },
  };
}
