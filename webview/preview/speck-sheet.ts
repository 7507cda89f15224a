/** All specks that the survey proposes, of the frame or of the roll, as small pictures at once: accepted or dismissed by keys. */
import type { FrameEntry } from "../../extension/messages.ts";
import { el } from "../dom.ts";
import { reasonOf } from "../reason.ts";
import { t } from "../translate.ts";
import { kit } from "../ui/index.ts";
import { accept, dismiss, type Proposal, proposalsOf } from "./sections/proposal-actions.ts";
import { speckText } from "./sections/proposal-list.ts";
import type { Session } from "./session.ts";
import type { SpeckPictures } from "./specks.ts";

/** CSS pixels of a small picture's sides. */
const SIZE = 72;

interface Speck {
  readonly frame: FrameEntry;
  readonly proposal: Proposal;
  readonly tile: HTMLButtonElement;
}

export interface SpeckSheet {
  readonly element: HTMLDialogElement;
  open(): void;
}

export function makeSpeckSheet(session: Session, pictures: SpeckPictures): SpeckSheet {
  return new Sheet(session, pictures);
}

class Sheet implements SpeckSheet {
  readonly element: HTMLDialogElement;
  readonly #session: Session;
  readonly #pictures: SpeckPictures;
  readonly #grid = el("div", { class: "speck-grid", role: "listbox", "aria-label": t("Proposed spots") });
  readonly #note = el("p", { class: "hint", role: "status" });
  readonly #all: ReturnType<typeof kit.check>;
  #specks: Speck[] = [];
  #ofRoll = false;
  #surveyed = 0;
  /** Counts openings: what an earlier one still fetches is dropped. */
  #turn = 0;

  constructor(session: Session, pictures: SpeckPictures) {
    this.#session = session;
    this.#pictures = pictures;
    this.#all = kit.check({
      label: t("All frames of the roll"),
      checked: false,
      onChange: (checked) => {
        this.#ofRoll = checked;
        void this.#fill();
      },
    });
    const rest = kit.button({
      label: t("Accept the rest"),
      title: t("Accepts every spot that is still shown: one step of undo for each frame"),
      kind: "primary",
      onPress: () => this.#acceptRest(),
    });
    const close = kit.button({ label: t("Close"), kind: "secondary", onPress: () => this.element.close() });
    this.element = el(
      "dialog",
      { class: "speck-sheet", "aria-label": t("Specks that the survey found") },
      el("h2", {}, t("Specks that the survey found")),
      el("p", { class: "hint" }, t("Enter accepts, Delete dismisses, arrow keys go on.")),
      this.#grid,
      this.#note,
      el("div", { class: "buttons" }, this.#all.element, rest.element, close.element),
    );
    this.#grid.addEventListener("keydown", (event) => this.#press(event));
    this.element.addEventListener("close", () => this.#turn++);
  }

  open(): void {
    if (this.element.open) return;
    this.element.showModal();
    void this.#fill();
  }

  /** Frames are asked for one after the other: what has come can be worked on while the others do. */
  async #fill(): Promise<void> {
    const turn = ++this.#turn;
    this.#specks = [];
    this.#grid.replaceChildren();
    const { roll } = this.#session.store.get();
    const shown = this.#session.frame();
    const frames = this.#ofRoll ? (roll?.frames ?? []) : shown ? [shown] : [];
    let surveyed = 0;
    this.#note.textContent = t("Looking through {0} frames …", frames.length);
    for (const frame of frames) {
      try {
        const answer = await this.#session.client.request("proposals", { frame: frame.id });
        if (turn !== this.#turn) return;
        if (answer.surveyed) surveyed++;
        // Dust of the sensor lies in every frame: it is shown once.
        const known = new Set(this.#specks.map(({ proposal }) => JSON.stringify(proposal.spot)));
        const fresh = proposalsOf(answer).filter(
          ({ kind, spot }) => kind === "film" || !known.has(JSON.stringify(spot)),
        );
        this.#add(frame, fresh);
      } catch (error) {
        if (turn !== this.#turn) return;
        this.#session.announce(reasonOf(error));
      }
    }
    this.#surveyed = surveyed;
    this.#count();
  }

  #add(frame: FrameEntry, proposals: readonly Proposal[]): void {
    for (const proposal of proposals) {
      const tile = el(
        "button",
        { type: "button", role: "option", class: "speck-tile", tabindex: "-1", title: speckText(proposal) },
        this.#pictures.picture(frame, proposal.spot, SIZE),
        el("span", { class: "number" }, frame.id),
      );
      tile.setAttribute("aria-label", `${t("Frame {0}", frame.id)}. ${speckText(proposal)}`);
      tile.setAttribute("aria-selected", "false");
      const speck: Speck = { frame, proposal, tile };
      tile.addEventListener("click", () => this.#choose(speck));
      tile.addEventListener("dblclick", () => this.#accept(speck));
      this.#specks.push(speck);
      this.#grid.append(tile);
    }
    if (!this.#grid.contains(document.activeElement) && this.#specks[0]) this.#choose(this.#specks[0]);
  }

  #choose(speck: Speck): void {
    for (const { tile } of this.#specks) {
      tile.tabIndex = tile === speck.tile ? 0 : -1;
      tile.setAttribute("aria-selected", String(tile === speck.tile));
    }
    speck.tile.focus();
  }

  #press(event: KeyboardEvent): void {
    const at = this.#specks.findIndex(({ tile }) => tile === document.activeElement);
    const speck = this.#specks[at];
    if (!speck || event.ctrlKey || event.metaKey || event.altKey) return;
    const columns = this.#columns();
    const by = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -columns, ArrowDown: columns }[event.key];
    if (event.key === "Enter" || event.key === " ") this.#accept(speck);
    else if (event.key === "Delete" || event.key === "Backspace") this.#dismiss(speck);
    else if (event.key === "Home") this.#choose(this.#specks[0]!);
    else if (event.key === "End") this.#choose(this.#specks.at(-1)!);
    else if (by !== undefined && this.#specks[at + by]) this.#choose(this.#specks[at + by]!);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  #columns(): number {
    const [first] = this.#specks;
    const top = first?.tile.offsetTop;
    return Math.max(1, this.#specks.filter(({ tile }) => tile.offsetTop === top).length);
  }

  #accept(speck: Speck): void {
    this.#remove(speck);
    void accept(this.#session, speck.frame.id, [speck.proposal]);
  }

  #dismiss(speck: Speck): void {
    this.#remove(speck);
    void dismiss(this.#session, speck.frame.id, speck.proposal, true);
  }

  /** Takes a speck off the sheet; the keyboard goes on with the next one. */
  #remove(speck: Speck): void {
    const at = this.#specks.indexOf(speck);
    if (at < 0) return;
    this.#specks.splice(at, 1);
    speck.tile.remove();
    const next = this.#specks[Math.min(at, this.#specks.length - 1)];
    if (next) this.#choose(next);
    this.#count();
  }

  #acceptRest(): void {
    for (const frame of new Set(this.#specks.map((one) => one.frame.id))) {
      const own = this.#specks.filter((one) => one.frame.id === frame);
      void accept(
        this.#session,
        frame,
        own.map(({ proposal }) => proposal),
      );
    }
    this.#specks = [];
    this.#grid.replaceChildren();
    this.#count();
  }

  #count(): void {
    this.#note.textContent =
      this.#specks.length > 0
        ? t("{0} spots", this.#specks.length)
        : this.#surveyed === 0
          ? t("No survey of these scans is kept. The section on dust makes one.")
          : t("No spots are left.");
  }
}
