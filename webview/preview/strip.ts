/** The strip of frames. Thumbnails are fetched for visible frames alone, a few at a time, and follow the recipe. */
import type { FrameEntry, RollState } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import { sourceOf } from "../render/source.ts";
import type { Session } from "./session.ts";
import { t } from "../translate.ts";
import { reasonOf } from "../reason.ts";
import { FrameTile } from "./frame-tile.ts";
import { openFrameMenu } from "./menus.ts";

/** Requests at a time: the picture itself must not wait behind thumbnails. */
const AT_ONCE = 2;
/** Milliseconds that decoding a thumbnail's scan may take. */
const THUMBNAIL_LIMIT = 300_000;

type Tiles = Map<string, FrameTile>;

export function makeStrip(session: Session): HTMLElement {
  const list = el("div", {
    class: "strip",
    role: "listbox",
    "aria-label": t("Frames"),
    "aria-orientation": "horizontal",
  });
  const tiles: Tiles = new Map();
  const drawVisible = makeThumbnailQueue(session, tiles);
  const viewport = watchVisible(list, tiles, drawVisible);
  let chosen: string | undefined;

  function follow(roll: RollState | undefined): void {
    const frames = roll?.frames ?? [];
    removeOthers(session, tiles, new Set(frames.map((f) => f.id)), viewport);
    frames.forEach((entry, i) => {
      const tile = tiles.get(entry.id) ?? new FrameTile(entry, () => session.select(entry.id));
      if (!tiles.has(entry.id)) viewport.observe(tile.button);
      tiles.set(entry.id, tile);
      if (list.children[i] !== tile.button) list.insertBefore(tile.button, list.children[i] ?? null);
      tile.follow(entry, hasProblems(roll, entry));
    });
    list.hidden = frames.length === 0;
  }

  function followSelection(): void {
    const now = session.frame()?.id;
    for (const [id, tile] of tiles) tile.setSelected(id === now);
    if (now === chosen || now === undefined) return;
    chosen = now;
    const button = tiles.get(now)?.button;
    button?.scrollIntoView({ block: "nearest", inline: "center", behavior: isMotionReduced() ? "auto" : "smooth" });
    if (list.contains(document.activeElement)) button?.focus();
  }

  list.addEventListener("keydown", (event) => stepByKey(session, event));
  list.addEventListener("contextmenu", (event) => {
    const tile = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-frame]") : undefined;
    const { frame } = tile?.dataset ?? {};
    if (!tile || frame === undefined) return;
    event.preventDefault();
    session.select(frame);
    tile.focus();
    const { left, top } = tile.getBoundingClientRect();
    openFrameMenu(session, event.button === 2 ? [event.clientX, event.clientY] : [left, top]);
  });
  let followed: RollState | undefined;
  session.store.on(({ roll }) => {
    if (roll !== followed) follow(roll);
    followed = roll;
    followSelection();
    drawVisible();
  });
  return list;
}

/** The strip with the button that folds it away. */
export function makeStripFold(session: Session, strip: HTMLElement): HTMLElement {
  const fold = el("button", { type: "button", class: "fold" });
  fold.addEventListener("click", () => session.ui({ foldedStrip: !session.store.get().ui.foldedStrip }));
  const element = el("footer", { class: "frames", "aria-label": t("Frames of the roll") }, fold, strip);
  session.store.on(({ ui, roll }) => {
    fold.textContent = ui.foldedStrip ? "▸" : "▾";
    fold.title = ui.foldedStrip ? t("Show the strip of frames") : t("Fold the strip of frames away");
    fold.setAttribute("aria-label", fold.title);
    fold.setAttribute("aria-expanded", String(!ui.foldedStrip));
    element.classList.toggle("folded", ui.foldedStrip);
    element.hidden = (roll?.frames.length ?? 0) === 0;
  });
  return element;
}

/** Returns a function that draws the visible tiles whose thumbnail has come, and fetches the others'. */
function makeThumbnailQueue(session: Session, tiles: Tiles): () => void {
  let running = 0;

  function drawVisible(): void {
    const { loading, current } = session.store.get();
    // The picture itself comes first.
    const isBusy = loading && !current;
    for (const tile of tiles.values()) {
      if (!tile.visible) continue;
      const { source } = tile.entry;
      if (tile.source?.key === source) tile.paint();
      else if (!isBusy && running < AT_ONCE && tile.requested !== source && session.store.get().roll?.trusted)
        fetchFor(tile);
    }
  }

  function fetchFor(tile: FrameTile): void {
    const { id, source } = tile.entry;
    tile.requested = source;
    running++;
    session.client
      .request("thumbnail", { frame: id }, { limit: THUMBNAIL_LIMIT })
      .then(
        (proxy) => {
          const made = sourceOf(proxy);
          session.thumbnails.set(made.key, made);
          tile.showSource(made);
        },
        (error: unknown) => tile.showFailure(reasonOf(error)),
      )
      .finally(() => {
        running--;
        drawVisible();
      });
  }
  return drawVisible;
}

/** Notes which tiles are in view, or about to be, and calls back whenever that changes. */
function watchVisible(list: HTMLElement, tiles: Tiles, onChange: () => void): IntersectionObserver {
  return new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) {
        const tile = tiles.get((target as HTMLElement).dataset["frame"] ?? "");
        if (tile) tile.visible = isIntersecting;
      }
      onChange();
    },
    { root: list, rootMargin: "0px 120px" },
  );
}

/** Removes the tiles of frames that the roll no longer has. */
function removeOthers(
  session: Session,
  tiles: Tiles,
  known: ReadonlySet<string>,
  viewport: IntersectionObserver,
): void {
  for (const [id, tile] of tiles) {
    if (known.has(id)) continue;
    viewport.unobserve(tile.button);
    if (tile.source) session.thumbnails.delete(tile.source.key);
    tile.button.remove();
    tiles.delete(id);
  }
}

const hasProblems = (roll: RollState | undefined, { id }: FrameEntry): boolean =>
  roll?.problems.some((p) => p.frame === id && p.severity !== "info") ?? false;

const isMotionReduced = (): boolean =>
  document.body.classList.contains("vscode-reduce-motion") || matchMedia("(prefers-reduced-motion: reduce)").matches;

/** Arrows step through the frames; Home and End go to the first and the last. */
function stepByKey(session: Session, event: KeyboardEvent): void {
  const by = { ArrowLeft: -1, ArrowUp: -1, ArrowRight: 1, ArrowDown: 1 }[event.key];
  const frames = session.store.get().roll?.frames ?? [];
  if (by !== undefined) session.step(by);
  else if (event.key === "Home" && frames[0]) session.select(frames[0].id);
  else if (event.key === "End" && frames.length) session.select(frames[frames.length - 1].id);
  else return;
  event.preventDefault();
}
