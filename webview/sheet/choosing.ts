/** Selecting in the grid: by click, by keys, and by a rectangle that is drawn around tiles. */
import { el } from "../dom.ts";
import { all, moved, pointed, within } from "../state/sheet/selection.ts";
import { tilesWithin } from "../state/sheet/sheet-layout.ts";
import { t } from "../translate.ts";
import type { Grid } from "./grid.ts";
import { countText, type SheetSession } from "./sheet-session.ts";

/** Pixels that the pointer moves before a press becomes a rectangle. */
const THRESHOLD = 5;

export function listenForChoice(session: SheetSession, grid: Grid): void {
  listenForPointer(session, grid);
  grid.element.addEventListener("keydown", (event) => {
    if (handleKey(session, grid, event)) event.preventDefault();
  });
}

const idsOf = (session: SheetSession): readonly string[] => session.store.get().frames.map(({ id }) => id);

function say(session: SheetSession): void {
  const { size } = session.store.get().selection.chosen;
  session.announce(size === 0 ? t("Nothing selected") : t("{0} selected", countText(size)));
}

/** @returns whether the key was used */
function handleKey(session: SheetSession, grid: Grid, event: KeyboardEvent): boolean {
  const { selection } = session.store.get();
  const ids = idsOf(session);
  const { columns } = grid.layout();
  const control = event.ctrlKey || event.metaKey;
  const steps: Readonly<Record<string, number>> = {
    ArrowLeft: -1,
    ArrowRight: 1,
    ArrowUp: -columns,
    ArrowDown: columns,
    PageUp: -columns * grid.page(),
    PageDown: columns * grid.page(),
    Home: -ids.length,
    End: ids.length,
  };
  const by = event.altKey ? undefined : steps[event.key];
  if (by !== undefined) {
    const next = moved(selection, ids, by, event.shiftKey);
    session.select(next);
    if (event.shiftKey) say(session);
    if (next.focus !== undefined) grid.focus(next.focus);
    return true;
  }
  if (event.key === " " && selection.focus !== undefined) {
    session.select(pointed(selection, ids, selection.focus, event.shiftKey ? "range" : "toggle"));
    say(session);
    return true;
  }
  if (control && event.key.toLowerCase() === "a") {
    session.select(all(selection, ids));
    say(session);
    return true;
  }
  if (event.key === "Escape" && selection.chosen.size > 0) {
    session.select({ ...selection, chosen: new Set() });
    say(session);
    return true;
  }
  return false;
}

function listenForPointer(session: SheetSession, grid: Grid): void {
  const box = el("div", { class: "rectangle", hidden: true });
  grid.surface.append(box);
  let from: { x: number; y: number; chosen: ReadonlySet<string>; drawing: boolean } | undefined;

  /** Place of the pointer on the surface, which scrolls. */
  const at = (event: PointerEvent): { x: number; y: number } => {
    const { left, top } = grid.surface.getBoundingClientRect();
    return { x: event.clientX - left, y: event.clientY - top };
  };

  grid.element.addEventListener("pointerdown", (event) => {
    // The scroll bar is the browser's.
    if (event.button !== 0 || event.clientX >= grid.element.getBoundingClientRect().left + grid.element.clientWidth)
      return;
    const { chosen } = session.store.get().selection;
    const kept = event.ctrlKey || event.metaKey || event.shiftKey ? chosen : new Set<string>();
    from = { ...at(event), chosen: kept, drawing: false };
  });
  grid.element.addEventListener("pointermove", (event) => {
    if (!from) return;
    const to = at(event);
    if (!from.drawing) {
      if (Math.hypot(to.x - from.x, to.y - from.y) < THRESHOLD) return;
      from.drawing = true;
      grid.element.setPointerCapture(event.pointerId);
      box.hidden = false;
    }
    const rectangle = {
      x: Math.min(from.x, to.x),
      y: Math.min(from.y, to.y),
      width: Math.abs(to.x - from.x),
      height: Math.abs(to.y - from.y),
    };
    box.style.transform = `translate(${rectangle.x}px, ${rectangle.y}px)`;
    box.style.width = `${rectangle.width}px`;
    box.style.height = `${rectangle.height}px`;
    const ids = idsOf(session);
    const touched = tilesWithin(grid.layout(), ids.length, rectangle).map((index) => ids[index]!);
    const { selection } = session.store.get();
    session.select(within(selection, from.chosen, touched));
  });
  const end = (event: PointerEvent): void => {
    if (!from) return;
    const drawn = from.drawing;
    const { chosen } = from;
    from = undefined;
    box.hidden = true;
    if (drawn) return say(session);
    if (event.type === "pointercancel") return;
    const id = (event.target as Element).closest<HTMLElement>("[data-frame]")?.dataset["frame"];
    const { selection } = session.store.get();
    if (id === undefined) return session.select({ ...selection, chosen });
    const manner = event.shiftKey ? "range" : event.ctrlKey || event.metaKey ? "toggle" : "alone";
    session.select(pointed(selection, idsOf(session), id, manner));
    grid.focus(id);
    say(session);
  };
  grid.element.addEventListener("pointerup", end);
  grid.element.addEventListener("pointercancel", end);
}
