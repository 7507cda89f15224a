/** One stop of the Tab key for a group of controls: arrow keys go on to the others, Home and End to the ends. */

/** What may take the focus in a group. */
const CONTROLS = "vscode-button, vscode-dropdown, button, select, input, [role=option], [data-stop]";

const ACROSS: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowRight: 1 };
const KEYS: Readonly<Record<string, number>> = { ...ACROSS, ArrowUp: -1, ArrowDown: 1 };

/**
 * @param group its controls may come and go
 * @param options `across`: left and right step alone, and up and down stay with the group; else all four step
 */
export function rove(group: HTMLElement, { across = false }: { readonly across?: boolean } = {}): void {
  const usable = (): HTMLElement[] =>
    [...group.querySelectorAll<HTMLElement>(CONTROLS)].filter(
      (one) => !one.hasAttribute("disabled") && one.closest("[hidden]") === null && one.offsetParent !== null,
    );
  const holderOf = (target: EventTarget | null): HTMLElement | undefined =>
    target instanceof Element ? (target.closest<HTMLElement>(CONTROLS) ?? undefined) : undefined;
  let stop: HTMLElement | undefined;
  let isChosen = false;

  /** Gives the stop to one control and takes it from the others. */
  function settle(wanted?: HTMLElement): void {
    const all = usable();
    if (wanted && all.includes(wanted)) {
      stop = wanted;
      isChosen = true;
    }
    // Until somebody has been here, the first one that can be used is the way in.
    if (!isChosen || !stop || !all.includes(stop)) stop = all[0];
    for (const one of group.querySelectorAll<HTMLElement>(CONTROLS)) {
      const index = one === stop ? "0" : "-1";
      if (one.getAttribute("tabindex") !== index) one.setAttribute("tabindex", index);
    }
  }

  group.addEventListener("focusin", ({ target }) => settle(holderOf(target)));
  group.addEventListener("keydown", (event) => {
    const at = holderOf(event.target);
    // A list of choices goes through its own with up and down.
    const isOwn = at?.matches("vscode-dropdown, select") === true && /^Arrow(?:Up|Down)$/.test(event.key);
    if (!at || isOwn || event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return;
    const all = usable();
    const step = (across ? ACROSS : KEYS)[event.key];
    const next =
      event.key === "Home"
        ? all[0]
        : event.key === "End"
          ? all.at(-1)
          : step === undefined
            ? undefined
            : all[(all.indexOf(at) + step + all.length) % all.length];
    if (!next) return;
    event.preventDefault();
    event.stopPropagation();
    settle(next);
    next.focus();
  });
  // Controls come, go, and are switched off: the stop must stay on one that can be reached. What can be reached is known
  // from the layout, which the display's next frame needs anyway.
  let isDue = false;
  const settleSoon = (): void => {
    if (isDue) return;
    isDue = true;
    requestAnimationFrame(() => {
      isDue = false;
      settle();
    });
  };
  new MutationObserver(settleSoon).observe(group, {
    subtree: true,
    childList: true,
    attributes: true,
    attributeFilter: ["disabled", "hidden"],
  });
  settle();
}
