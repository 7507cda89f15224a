/** Opens the picture on the graphics processor where there is one, and on the main processor otherwise. */
import { el } from "../../dom.ts";
import { makeCpuSurface } from "../../render/cpu-surface.ts";
import { isSoftwareGl, makeGpuSurface } from "../../render/gpu-surface.ts";
import type { Surface } from "../../render/surface.ts";
import { t } from "../../translate.ts";
import type { Session } from "../session.ts";
import { makePicture, type Picture } from "./picture.ts";

export interface DrawingOptions {
  /** Makes the worker of the CPU path; none where workers are refused. */
  readonly makeWorker: () => Promise<Worker | undefined>;
  /** Whether WebGL is used: where it is real, never, or even where it is only imitated. */
  readonly gpu?: "real" | "never" | "always";
}

/** Puts a canvas into the stage; `surface` returns what draws on it now. */
export function openPicture(
  session: Session,
  stage: HTMLElement,
  { makeWorker, gpu = "real" }: DrawingOptions,
): { readonly picture: Picture; readonly surface: () => Surface } {
  let canvas = el("canvas", { class: "picture" });
  let worker: Worker | undefined;
  const isWide = matchMedia("(color-gamut: p3)").matches;
  const wantsGpu = gpu === "always" || (gpu === "real" && !isSoftwareGl());
  let surface = (wantsGpu && makeGpuSurface(canvas, isWide)) || makeCpuSurface(canvas);
  stage.append(canvas);
  const picture = makePicture(session, canvas, surface);

  /** The CPU path starts in the page, and moves to the worker as soon as there is one. */
  async function useCpu(): Promise<void> {
    worker ??= await makeWorker().catch(() => undefined);
    // A canvas keeps the kind of context that it first gave: another kind needs another canvas.
    const fresh = el("canvas", { class: "picture" });
    canvas.replaceWith(fresh);
    canvas = fresh;
    surface.dispose();
    surface = makeCpuSurface(fresh, () => worker);
    picture.setSurface(surface, fresh);
  }

  if (surface.kind === "cpu") void useCpu();
  else
    canvas.addEventListener("webglcontextlost", (event) => {
      event.preventDefault();
      if (surface.kind !== "gpu") return;
      session.announce(t("The graphics processor was lost. The picture is drawn on the main processor instead."));
      void useCpu();
    });
  return { picture, surface: () => surface };
}
