/** Which frames of the sheet are chosen for what comes next, and where the keyboard is among them. */
export interface Selection {
  readonly chosen: ReadonlySet<string>;
  /** The frame that has the focus. */
  readonly focus?: string;
  /** Where a range begins. */
  readonly anchor?: string;
}

export const EMPTY: Selection = { chosen: new Set() };

/** How a click or a key changes the selection: alone, added or taken out, or everything from the anchor on. */
export type Manner = "alone" | "toggle" | "range";

/**
 * The selection after a frame was pointed at.
 * @param ids the frames as they are shown, in that order
 */
export function pointed(selection: Selection, ids: readonly string[], id: string, manner: Manner): Selection {
  if (manner === "toggle") return { chosen: toggled(selection.chosen, id), focus: id, anchor: id };
  if (manner === "range") {
    const anchor = selection.anchor ?? selection.focus ?? id;
    return { chosen: new Set(between(ids, anchor, id)), focus: id, anchor };
  }
  return { chosen: new Set([id]), focus: id, anchor: id };
}

/** The selection after the focus moved by some places, held to the first and the last frame. */
export function moved(selection: Selection, ids: readonly string[], by: number, extend: boolean): Selection {
  if (ids.length === 0) return selection;
  const at = selection.focus === undefined ? -1 : ids.indexOf(selection.focus);
  const next = ids[at < 0 ? 0 : Math.min(ids.length - 1, Math.max(0, at + by))]!;
  return extend ? pointed(selection, ids, next, "range") : { ...selection, focus: next };
}

export const all = (selection: Selection, ids: readonly string[]): Selection => ({
  ...selection,
  chosen: new Set(ids),
  anchor: ids[0],
});

/** Adds frames to those that were chosen when a rectangle was begun. */
export const within = (selection: Selection, before: ReadonlySet<string>, ids: readonly string[]): Selection => ({
  ...selection,
  chosen: new Set([...before, ...ids]),
});

/** Without frames that are not shown any more; the focus goes to the first one where its own is gone. */
export function pruned(selection: Selection, ids: readonly string[]): Selection {
  const shown = new Set(ids);
  const chosen = [...selection.chosen].filter((id) => shown.has(id));
  const focus = selection.focus !== undefined && shown.has(selection.focus) ? selection.focus : ids[0];
  const anchor = selection.anchor !== undefined && shown.has(selection.anchor) ? selection.anchor : undefined;
  if (chosen.length === selection.chosen.size && focus === selection.focus && anchor === selection.anchor)
    return selection;
  return { chosen: new Set(chosen), focus, anchor };
}

/** The frames that work is done on, in the order shown: those chosen, else the one that has the focus. */
export function targets({ chosen, focus }: Selection, ids: readonly string[]): readonly string[] {
  if (chosen.size > 0) return ids.filter((id) => chosen.has(id));
  return focus !== undefined && ids.includes(focus) ? [focus] : [];
}

function toggled(chosen: ReadonlySet<string>, id: string): ReadonlySet<string> {
  const next = new Set(chosen);
  if (!next.delete(id)) next.add(id);
  return next;
}

function between(ids: readonly string[], from: string, to: string): readonly string[] {
  const [a, b] = [ids.indexOf(from), ids.indexOf(to)];
  if (a < 0) return [to];
  return ids.slice(Math.min(a, b), Math.max(a, b) + 1);
}
