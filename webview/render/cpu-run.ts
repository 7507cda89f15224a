/** Runs plans on the CPU into RGBA; the same in the worker and, where there is none, in the page. */
import { runPlan8 } from "../../extension/engine/run.ts";
import type { Plan } from "../../extension/engine/plan.ts";
import { paintLost, type Warn } from "./lost.ts";
import { type Grid, transmittanceOf } from "./source.ts";

/** What the worker is told: a grid once, then plans over it. */
export type ToWorker =
  | { readonly kind: "grid"; readonly grid: number; readonly value: Grid; readonly lost?: Uint8Array }
  | { readonly kind: "forget"; readonly grid: number }
  | { readonly kind: "run"; readonly id: number; readonly grid: number; readonly plan: Plan; readonly warn: Warn };

/** What it answers to a run. */
export interface FromWorker {
  readonly id: number;
  readonly width: number;
  readonly height: number;
  readonly pixels: Uint8ClampedArray<ArrayBuffer>;
}

export interface CpuRunner {
  receive(message: ToWorker): FromWorker | undefined;
}

export function makeCpuRunner(): CpuRunner {
  const grids = new Map<number, { width: number; height: number; t: Float32Array; lost?: Uint8Array }>();
  return {
    receive(message) {
      if (message.kind === "grid") {
        const { width, height } = message.value;
        grids.set(message.grid, { width, height, t: transmittanceOf(message.value), lost: message.lost });
      } else if (message.kind === "forget") grids.delete(message.grid);
      else {
        const grid = grids.get(message.grid);
        if (!grid) return { id: message.id, width: 0, height: 0, pixels: new Uint8ClampedArray(0) };
        const pixels = new Uint8ClampedArray(grid.width * grid.height * 4);
        runPlan8(message.plan, grid.t, pixels, grid.width * grid.height);
        if (message.warn !== "none") paintLost(pixels, message.plan, message.warn, grid.lost);
        return { id: message.id, width: grid.width, height: grid.height, pixels };
      }
      return undefined;
    },
  };
}
