/** Full-resolution parts: when one looks closer than the proxy is fine, the visible part is fetched and laid over it. */
import { JobError } from "../../../extension/failure.ts";
import { sourceOf } from "../../render/source.ts";
import type { Session } from "../session.ts";
import { apply, inverse, type Point } from "../../state/affine.ts";
import type { Layout, Picture } from "./picture.ts";
import { reasonOf } from "../../reason.ts";
import { clamp } from "../../../extension/engine/math/clamp.ts";

/** Rest before a part is asked for: panning goes on. */
const DELAY = 250;
const LIMIT = 180_000;
/** How much more than what is visible is fetched, on each side. */
const MARGIN = 0.15;

interface Part {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export function makeDetail(session: Session, picture: Picture): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running: AbortController | undefined;
  let requested: string | undefined;

  picture.onLayout((layout) => {
    const { source, current, detail } = session.store.get();
    if (!layout || !current || !source || !session.frame()) return;
    const fine = layout.zoom * (source.scanWidth / source.levels[0].width);
    const part = visiblePart(layout);
    // One proxy pixel on one canvas pixel is as fine as it gets.
    if (fine <= 1.05 || source.levels[0].width >= source.scanWidth) return;
    if (detail && detail.key === source.key && holds(detail.part, part)) return;
    const key = `${source.key} ${Object.values(part)
      .map((v) => v.toFixed(3))
      .join(" ")}`;
    if (key === requested) return;
    clearTimeout(timer);
    timer = setTimeout(() => fetchPart(key, widened(part)), DELAY);
  });

  function fetchPart(key: string, part: Part): void {
    const frame = session.frame();
    if (!frame) return;
    requested = key;
    running?.abort();
    const controller = (running = new AbortController());
    session.client.request("detail", { frame: frame.id, part }, { signal: controller.signal, limit: LIMIT }).then(
      (proxy) => {
        const { source } = session.store.get();
        if (running === controller && proxy.source === source?.key) session.store.set({ detail: sourceOf(proxy) });
      },
      (error: unknown) => {
        if (error instanceof JobError && error.code === "cancelled") return;
        session.announce(reasonOf(error));
      },
    );
  }
}

/** The smallest upright part of the scan, in fractions, that holds all that is seen. */
export function visiblePart({ source, paneBoxes, maps }: Pick<Layout, "source" | "paneBoxes" | "maps">): Part {
  const { x, y, width, height } = paneBoxes[0];
  const back = inverse(maps[0]);
  const corners = (
    [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ] as const
  ).map((p: Point) => apply(back, p));
  const hold = (v: number): number => clamp(v, 0, 1);
  const xs = corners.map((p) => hold(p[0] / source.scanWidth));
  const ys = corners.map((p) => hold(p[1] / source.scanHeight));
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return { left, top, width: Math.max(...xs) - left, height: Math.max(...ys) - top };
}

const holds = (big: Part, small: Part): boolean =>
  small.left >= big.left - 1e-3 &&
  small.top >= big.top - 1e-3 &&
  small.left + small.width <= big.left + big.width + 1e-3 &&
  small.top + small.height <= big.top + big.height + 1e-3;

function widened({ left, top, width, height }: Part): Part {
  const l = Math.max(0, left - width * MARGIN);
  const t = Math.max(0, top - height * MARGIN);
  return {
    left: l,
    top: t,
    width: Math.min(1, left + width * (1 + MARGIN)) - l,
    height: Math.min(1, top + height * (1 + MARGIN)) - t,
  };
}
