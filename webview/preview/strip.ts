/** The strip of frames. Thumbnails are fetched for visible frames alone, a few at a time, and follow the recipe. */
import { runCodes8 } from "../../extension/engine/plan/run.ts";
import type { FrameEntry } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import { type Source, sourceOf } from "../render/source.ts";
import { planFor } from "../render/view-plans.ts";
import type { Session } from "./session.ts";
import { chained, scaling } from "../state/affine.ts";
import { croppedFrame } from "../state/frame-transform.ts";
import { t } from "../translate.ts";
import { reasonOf } from "../reason.ts";

interface Tile {
  entry: FrameEntry;
  readonly button: HTMLButtonElement;
  readonly canvas: HTMLCanvasElement;
  readonly mark: HTMLElement;
  visible: boolean;
  requested?: string;
  source?: Source;
  painted?: FrameEntry;
}

/** Requests at a time: the picture itself must not wait behind thumbnails. */
const AT_ONCE = 2;
const HEIGHT = 64;

export function makeStrip(session: Session): HTMLElement {
  const list = el("div", {
    class: "strip",
    role: "listbox",
    "aria-label": t("Frames"),
    "aria-orientation": "horizontal",
  });
  const tiles = new Map<string, Tile>();
  let running = 0;
  let chosen: string | undefined;

  const viewport = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) {
        const tile = tiles.get((target as HTMLElement).dataset["frame"] ?? "");
        if (tile) tile.visible = isIntersecting;
      }
      work();
    },
    { root: list, rootMargin: "0px 120px" },
  );

  function work(): void {
    for (const tile of tiles.values()) {
      if (!tile.visible) continue;
      const { entry } = tile;
      if (tile.source?.key === entry.source) paint(tile);
      else if (running < AT_ONCE && tile.requested !== entry.source && session.store.get().roll?.trusted)
        fetchTile(tile);
    }
  }

  function fetchTile(tile: Tile): void {
    const { id, source } = tile.entry;
    tile.requested = source;
    running++;
    session.client
      .request("thumbnail", { frame: id }, { limit: 300_000 })
      .then(
        (proxy) => {
          tile.source = sourceOf(proxy);
          session.thumbnails.set(tile.source.key, tile.source);
          tile.button.classList.remove("missing");
        },
        (error: unknown) => {
          tile.button.classList.add("missing");
          tile.button.title = reasonOf(error);
        },
      )
      .finally(() => {
        running--;
        work();
      });
  }

  function paint(tile: Tile): void {
    const { entry, source, canvas } = tile;
    if (!source || tile.painted === entry) return;
    tile.painted = entry;
    const [grid] = source.levels;
    const pixels = new Uint8ClampedArray(grid.width * grid.height * 4);
    try {
      const plan = planFor("print", entry.look, "srgb", source.weights);
      runCodes8(plan, grid.codes, pixels, grid.width * grid.height);
    } catch {
      return; // the recipe's problem is named beside the picture
    }
    const scan = new OffscreenCanvas(grid.width, grid.height);
    scan.getContext("2d")?.putImageData(new ImageData(pixels, grid.width, grid.height), 0, 0);
    const transform = croppedFrame(source.scanWidth, source.scanHeight, entry);
    const scale = (HEIGHT * (window.devicePixelRatio || 1)) / transform.height;
    canvas.width = Math.max(1, Math.round(transform.width * scale));
    canvas.height = Math.max(1, Math.round(transform.height * scale));
    canvas.style.width = `${Math.round((transform.width / transform.height) * HEIGHT)}px`;
    const to = canvas.getContext("2d");
    const m = chained(
      scaling(source.scanWidth / grid.width, source.scanHeight / grid.height),
      transform.toFinished,
      scaling(scale),
    );
    to?.setTransform(m.a, m.b, m.c, m.d, m.e, m.f);
    to?.drawImage(scan, 0, 0);
    tile.button.classList.add("drawn");
  }

  function tileOf(entry: FrameEntry): Tile {
    const canvas = el("canvas", { width: "96", height: "64", "aria-hidden": "true" });
    const mark = el("span", { class: "mark", "aria-hidden": "true" });
    const button = el(
      "button",
      { type: "button", role: "option", class: "tile", tabindex: "-1", "data-frame": entry.id },
      canvas,
      el("span", { class: "number" }, entry.id, mark),
    );
    button.addEventListener("click", () => session.select(entry.id));
    const tile: Tile = { entry, button, canvas, mark, visible: false };
    viewport.observe(button);
    return tile;
  }

  function refresh(): void {
    const { roll } = session.store.get();
    const frames = roll?.frames ?? [];
    const known = new Set(frames.map((f) => f.id));
    for (const [id, tile] of tiles)
      if (!known.has(id)) {
        viewport.unobserve(tile.button);
        if (tile.source) session.thumbnails.delete(tile.source.key);
        tile.button.remove();
        tiles.delete(id);
      }
    frames.forEach((entry, i) => {
      const tile = tiles.get(entry.id) ?? tileOf(entry);
      tiles.set(entry.id, tile);
      tile.entry = entry;
      if (list.children[i] !== tile.button) list.insertBefore(tile.button, list.children[i] ?? null);
      const wrong = roll?.problems.some((p) => p.frame === entry.id && p.severity !== "info") ?? false;
      tile.button.classList.toggle("wrong", wrong);
      tile.button.classList.toggle("skipped", entry.skip);
      tile.mark.textContent = wrong ? "!" : entry.skip ? "–" : "";
      tile.button.setAttribute(
        "aria-label",
        [
          t("Frame {0}", entry.id),
          entry.scans.length ? entry.scans.join(", ") : t("no scan"),
          ...(entry.skip ? [t("skipped")] : []),
          ...(wrong ? [t("with problems")] : []),
        ].join(", "),
      );
    });
    const now = session.frame()?.id;
    for (const [id, tile] of tiles) {
      tile.button.setAttribute("aria-selected", String(id === now));
      tile.button.tabIndex = id === now ? 0 : -1;
    }
    if (now !== chosen && now !== undefined) {
      chosen = now;
      const still =
        document.body.classList.contains("vscode-reduce-motion") ||
        matchMedia("(prefers-reduced-motion: reduce)").matches;
      tiles
        .get(now)
        ?.button.scrollIntoView({ block: "nearest", inline: "center", behavior: still ? "auto" : "smooth" });
      if (list.contains(document.activeElement)) tiles.get(now)?.button.focus();
    }
    list.hidden = frames.length === 0;
    work();
  }

  list.addEventListener("keydown", (event) => {
    const by = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 }[event.key];
    const frames = session.store.get().roll?.frames ?? [];
    if (by !== undefined) session.step(by);
    else if (event.key === "Home" && frames[0]) session.select(frames[0].id);
    else if (event.key === "End" && frames.length) session.select(frames[frames.length - 1].id);
    else return;
    event.preventDefault();
  });
  session.store.on(refresh);
  return list;
}
