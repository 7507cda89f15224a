/** How a panel was laid out when it was last used: the next one of its kind opens so. The rest belongs to one roll. */
import type { Memento } from "vscode";

/** Keys of a page's state that are about the panel and not about a roll. */
const KEYS = ["closed", "sizes", "foldedStrip"] as const;

const keyOf = ({ view }: { readonly view: string }): string => `${view}.layout`;

export function rememberLayout(memory: Memento, kind: { readonly view: string }, state: unknown): void {
  if (typeof state !== "object" || state === null) return;
  const layout = Object.fromEntries(KEYS.flatMap((key) => (key in state ? [[key, Reflect.get(state, key)]] : [])));
  if (Object.keys(layout).length > 0) void memory.update(keyOf(kind), layout);
}

/** @returns a state for a page that has none of its own: older than any that the page keeps itself */
export function lastLayout(memory: Memento, kind: { readonly view: string }): unknown {
  const layout: unknown = memory.get(keyOf(kind));
  return typeof layout === "object" && layout !== null ? { ...layout, at: 1 } : undefined;
}
