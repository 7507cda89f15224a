/** Rings over the picture around proposed spots, while their list is in use or the tool for spots is in hand. */
import type { FrameEntry } from "../../../extension/messages.ts";
import type { Session } from "../session.ts";
import type { Proposal } from "./proposal-actions.ts";

export class ProposalRings {
  readonly #session: Session;
  #section: HTMLDetailsElement | undefined;
  #shown: { readonly frame: FrameEntry; readonly all: readonly Proposal[] } | undefined;
  #chosen: Proposal | undefined;
  #inUse = false;

  constructor(session: Session) {
    this.#session = session;
  }

  /** Follows whether pointer or keyboard are in the section that holds the list. */
  follow(section: HTMLDetailsElement): void {
    this.#section = section;
    const use = (now: boolean): void => {
      this.#inUse = now || section.matches(":hover, :focus-within");
      if (!this.#inUse) this.#chosen = undefined;
      this.draw();
    };
    for (const name of ["pointerenter", "focusin"]) section.addEventListener(name, () => use(true));
    for (const name of ["pointerleave", "focusout"])
      section.addEventListener(name, () => queueMicrotask(() => use(false)));
  }

  /** Says which proposals there are; `draw` shows them. */
  set(frame: FrameEntry, all: readonly Proposal[]): void {
    this.#shown = { frame, all };
    this.#chosen = undefined;
  }

  choose(one: Proposal): void {
    this.#chosen = one;
    this.draw();
  }

  /** Puts the rings over the picture or removes them. A dismissed spot is ringed while the list is at it. */
  draw(): void {
    const { store } = this.#session;
    const { proposals } = store.get();
    const ringed = this.#ringed();
    const spots = ringed.map(({ spot }) => spot);
    if (spots.length === 0) {
      if (proposals) store.set({ proposals: undefined });
      return;
    }
    const isSame = spots.length === proposals?.spots.length && spots.every((spot, i) => spot === proposals.spots[i]);
    const chosen = this.#chosen && ringed.indexOf(this.#chosen);
    if (!isSame || proposals.chosen !== chosen) store.set({ proposals: { spots, chosen } });
  }

  #ringed(): readonly Proposal[] {
    const isWanted = this.#section?.open && (this.#inUse || this.#session.store.get().ui.tool === "spots");
    if (!isWanted || !this.#shown || this.#shown.frame.id !== this.#session.frame()?.id) return [];
    const { all } = this.#shown;
    return this.#chosen && !all.includes(this.#chosen) ? [...all, this.#chosen] : all;
  }
}
