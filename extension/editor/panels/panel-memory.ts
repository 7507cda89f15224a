/**
 * How one looks at things in a panel, over a reload of the window. The editor keeps a page's state too, but writes it
 * down every few seconds only, and in a browser what is not written yet is lost when the window is reloaded. So it is
 * written here at once as well, and the page takes the newer of both.
 */
import { createHash } from "node:crypto";
import { readFile, rm } from "node:fs/promises";
import { join } from "node:path";
import { writeAtomic } from "../../scans/files/atomic.ts";

/** A page's state is small; anything larger is no such state. */
const MAX_LENGTH = 200_000;

export class PanelMemory {
  readonly #folder: string | undefined;
  readonly #writing = new Map<string, Promise<void>>();
  readonly #latest = new Map<string, string>();

  /** @param folder of the workspace's own storage; without one nothing is kept */
  constructor(folder: string | undefined) {
    this.#folder = folder && join(folder, "panels");
  }

  /** Keeps a panel's state. Of several that come while one is written, the last is written next. */
  keep(panel: string, state: unknown): void {
    const text = JSON.stringify(state);
    if (this.#folder === undefined || typeof text !== "string" || text.length > MAX_LENGTH) return;
    this.#latest.set(panel, text);
    if (!this.#writing.has(panel)) this.#writing.set(panel, this.#write(this.#folder, panel));
  }

  async recall(panel: string): Promise<unknown> {
    if (this.#folder === undefined) return undefined;
    try {
      return JSON.parse(await readFile(pathOf(this.#folder, panel), "utf8"));
    } catch {
      return undefined; // never kept, or damaged: the page begins as it was made
    }
  }

  /** A panel that somebody closed begins afresh when it is opened again. */
  async forget(panel: string): Promise<void> {
    this.#latest.delete(panel);
    await this.#writing.get(panel);
    if (this.#folder !== undefined) await rm(pathOf(this.#folder, panel), { force: true });
  }

  async #write(folder: string, panel: string): Promise<void> {
    try {
      for (let text = this.#latest.get(panel); text !== undefined; text = this.#latest.get(panel)) {
        this.#latest.delete(panel);
        await writeAtomic(pathOf(folder, panel), text);
      }
    } catch {
      // A disk that takes nothing costs the state over a reload, no more.
    } finally {
      this.#writing.delete(panel);
    }
  }
}

const pathOf = (folder: string, panel: string): string =>
  join(folder, `${createHash("sha256").update(panel).digest("hex").slice(0, 40)}.json`);
