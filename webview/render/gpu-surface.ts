/** Shows scenes with WebGL2: plans over the grids first, then each result laid on the canvas. */
import { chained, growth, inverse, moving, scaling, shaderMatrix, type Affine } from "../state/affine.ts";
import { compile, makeGpuPlans } from "./gpu-plan.ts";
import { LAY } from "./shaders.ts";
import type { Grid, Source } from "./source.ts";
import { levelFor, saturatedPixels, type Surface } from "./surface.ts";

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

/** @returns undefined where the browser has no WebGL2 */
export function makeGpuSurface(canvas: HTMLCanvasElement, wide: boolean): Surface | undefined {
  const gl = canvas.getContext("webgl2", {
    alpha: false,
    antialias: false,
    depth: false,
    powerPreference: "high-performance",
  });
  if (!gl) return undefined;
  let space: "srgb" | "p3" = "srgb";
  if (wide && "drawingBufferColorSpace" in gl) {
    gl.drawingBufferColorSpace = "display-p3";
    if (gl.drawingBufferColorSpace === "display-p3") space = "p3";
  } else if ("drawingBufferColorSpace" in gl) gl.drawingBufferColorSpace = "srgb";
  const plans = makeGpuPlans(gl);
  const { program, at } = compile(gl, LAY);
  const lost = new WeakMap<Grid, Uint8Array>();

  function contextLost(source: Source, level: number): Uint8Array {
    const grid = source.levels[level];
    let made = lost.get(grid);
    if (!made) lost.set(grid, (made = saturatedPixels(source, level)));
    return made;
  }

  /** Shaders count canvas rows from below. */
  const flipped = (height: number): Affine => chained(scaling(1, -1), moving(0, height));

  return {
    kind: "gpu",
    space,
    async draw(scene) {
      if (gl.isContextLost()) return;
      const [width, height] = [Math.max(1, scene.width), Math.max(1, scene.height)];
      if (canvas.width !== width) canvas.width = width;
      if (canvas.height !== height) canvas.height = height;
      const runs = scene.panes.flatMap((pane) =>
        scene.layers.map((source) => {
          const level = levelFor(source, growth(pane.toCanvas));
          const grid = source.levels[level];
          return {
            pane,
            source,
            level,
            result: plans.run(
              pane.plan,
              grid,
              pane.warn,
              pane.warn === "none" ? undefined : contextLost(source, level),
            ),
          };
        }),
      );
      gl.bindFramebuffer(gl.FRAMEBUFFER, null);
      gl.viewport(0, 0, width, height);
      gl.disable(gl.SCISSOR_TEST);
      gl.clearColor(scene.surround, scene.surround, scene.surround, 1);
      gl.clear(gl.COLOR_BUFFER_BIT);
      gl.useProgram(program);
      gl.enable(gl.SCISSOR_TEST);
      for (const { pane, source, result } of runs) {
        const { x, y, width: w, height: h } = pane.box;
        gl.scissor(Math.round(x), Math.round(height - y - h), Math.round(w), Math.round(h));
        gl.activeTexture(gl.TEXTURE0);
        gl.bindTexture(gl.TEXTURE_2D, result.texture);
        const { left, top, width: pw, height: ph } = source.part;
        const toLayer = chained(
          flipped(height),
          inverse(pane.toCanvas),
          moving(-left * source.scanWidth, -top * source.scanHeight),
          scaling(1 / (pw * source.scanWidth), 1 / (ph * source.scanHeight)),
        );
        const shrinks = growth(toLayer) * Math.sqrt(result.width * result.height) > 1.05;
        if (shrinks && !result.shrunk) {
          gl.generateMipmap(gl.TEXTURE_2D);
          result.shrunk = true;
        }
        gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, shrinks ? gl.LINEAR_MIPMAP_LINEAR : gl.LINEAR);
        gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.LINEAR);
        gl.uniform1i(at("picture"), 0);
        gl.uniformMatrix3fv(at("toLayer"), false, shaderMatrix(toLayer));
        gl.uniformMatrix3fv(at("toPicture"), false, shaderMatrix(chained(flipped(height), pane.toPicture)));
        gl.drawArrays(gl.TRIANGLES, 0, 3);
      }
      gl.disable(gl.SCISSOR_TEST);
      plans.keep(scene.layers.flatMap((s) => s.levels));
    },
    dispose() {
      gl.getExtension("WEBGL_lose_context")?.loseContext();
    },
  };
}
