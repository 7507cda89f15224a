/** A menu at a place of the page: opened by a right click, the menu key, or a button. */
export interface MenuItem {
  readonly label: string;
  /** The key that does the same. */
  readonly key?: string;
  readonly enabled?: boolean;
  readonly run: () => void;
}

/** "line" parts groups of items. */
export type MenuEntry = MenuItem | "line";

const MARGIN = 4;
let close: (() => void) | undefined;

/** @param label the menu's spoken name */
export function openMenu(label: string, entries: readonly MenuEntry[], [x, y]: readonly [number, number]): void {
  close?.();
  const before = document.activeElement;
  const menu = document.createElement("div");
  menu.className = "menu";
  menu.setAttribute("role", "menu");
  menu.setAttribute("aria-label", label);
  const items: HTMLButtonElement[] = [];
  for (const entry of entries) {
    if (entry === "line") {
      menu.append(lineOf());
      continue;
    }
    const item = itemOf(entry, () => end(true));
    items.push(item);
    menu.append(item);
  }
  document.body.append(menu);
  const { width, height } = menu.getBoundingClientRect();
  menu.style.left = `${Math.max(MARGIN, Math.min(x, innerWidth - width - MARGIN))}px`;
  menu.style.top = `${Math.max(MARGIN, Math.min(y, innerHeight - height - MARGIN))}px`;

  function end(restoresFocus: boolean): void {
    close = undefined;
    menu.remove();
    window.removeEventListener("pointerdown", beside, true);
    window.removeEventListener("blur", leave);
    if (restoresFocus && before instanceof HTMLElement) before.focus();
  }
  const leave = (): void => end(false);
  const beside = ({ target }: Event): void => {
    if (!(target instanceof Node && menu.contains(target))) end(false);
  };
  close = leave;
  window.addEventListener("pointerdown", beside, true);
  window.addEventListener("blur", leave);
  menu.addEventListener("keydown", (event) => {
    event.stopPropagation();
    const at = items.findIndex((item) => item === document.activeElement);
    const to = nextIndex(event.key, at, items);
    if (event.key === "Escape" || event.key === "Tab") end(true);
    else if (to !== undefined) items[to]?.focus();
    else return;
    event.preventDefault();
  });
  menu.addEventListener("contextmenu", (event) => event.preventDefault());
  items.find((item) => !item.disabled)?.focus();
}

/** The item that a key goes to: arrows step, Home and End jump, a letter goes to the next item that begins with it. */
function nextIndex(key: string, at: number, items: readonly HTMLButtonElement[]): number | undefined {
  const step = (by: number): number => {
    let to = at;
    do to = (to + by + items.length) % items.length;
    while (items[to]?.disabled && to !== at);
    return to;
  };
  if (key === "ArrowDown") return step(1);
  if (key === "ArrowUp") return step(-1);
  if (key === "Home") return items.findIndex((item) => !item.disabled);
  if (key === "End") return items.findLastIndex((item) => !item.disabled);
  if (key.length !== 1 || key === " ") return undefined;
  const begins = (item: HTMLButtonElement): boolean =>
    !item.disabled && (item.textContent ?? "").toLowerCase().startsWith(key.toLowerCase());
  const order = [...items.keys()].map((i) => (at + 1 + i) % items.length);
  return order.find((i) => begins(items[i]!));
}

function itemOf({ label, key, enabled = true, run }: MenuItem, end: () => void): HTMLButtonElement {
  const item = document.createElement("button");
  item.type = "button";
  item.setAttribute("role", "menuitem");
  item.tabIndex = -1;
  item.disabled = !enabled;
  item.append(label);
  if (key) {
    const shown = document.createElement("span");
    shown.className = "menu-key";
    shown.setAttribute("aria-hidden", "true");
    shown.textContent = key;
    item.append(shown);
    item.setAttribute("aria-keyshortcuts", key);
    item.setAttribute("aria-label", label);
  }
  item.addEventListener("click", () => {
    end();
    run();
  });
  return item;
}

function lineOf(): HTMLElement {
  const line = document.createElement("div");
  line.className = "menu-line";
  line.setAttribute("role", "separator");
  return line;
}
