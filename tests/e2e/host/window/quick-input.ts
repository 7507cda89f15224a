import type { Page } from "playwright-core";
import { LIMIT, until } from "../wait.ts";

/** How long a list may take to come to rest before it is closed and asked for again, in milliseconds; doubled each time. */
const PATIENCE = LIMIT / 4;

/**
 * Opens a quick input by its key, types, and takes the row whose label is exactly `label`.
 * What the list may hold is settled when it opens: one that opens a moment before the editor knows which file is in
 * front does not offer that file's commands, however long one waits. So a list without the row is closed and opened
 * again, as a user would do.
 */
export async function pickFromQuickInput(page: Page, key: string, prefix: string, label: string): Promise<void> {
  for (let limit = PATIENCE; ; limit *= 2) {
    try {
      await openWithRow(page, key, prefix, label, limit);
      break;
    } catch (error) {
      if (limit >= LIMIT) throw error;
    }
    await page.keyboard.press("Escape");
    await widgetOf(page).waitFor({ state: "hidden" });
  }
  await until(`the focus on the row "${label}"`, async () => {
    if ((await readList(page)).focused === label) return true;
    await page.keyboard.press("ArrowDown");
    return false;
  });
  await page.keyboard.press("Enter");
  await widgetOf(page).waitFor({ state: "hidden" });
}

const widgetOf = (page: Page) => page.locator(".quick-input-widget").first();

/**
 * The list is filled in steps and Enter takes whatever row has the focus at that moment, so this waits until the list
 * has come to rest; the focus is then moved with the arrow keys. (A click can miss: rows move, a hover covers them.)
 */
async function openWithRow(page: Page, key: string, prefix: string, label: string, limit: number): Promise<void> {
  await page.keyboard.press(key);
  const box = widgetOf(page).locator("input").first();
  await box.waitFor({ state: "visible" });
  await box.fill(prefix + label);
  let last = "";
  let same = 0;
  await until(
    `a row "${label}" in the quick input`,
    async () => {
      const list = await readList(page);
      const now = JSON.stringify(list);
      same = now === last && !list.busy ? same + 1 : 0;
      last = now;
      return same >= 2 && list.labels.includes(label);
    },
    { limit },
  ).catch((error: unknown) => {
    throw new Error(`${(error as Error).message} The list was ${last}.`, { cause: error });
  });
}

function readList(page: Page): Promise<{ labels: string[]; focused: string | undefined; busy: boolean }> {
  return page.evaluate(() => {
    const widget = document.querySelector(".quick-input-widget");
    const labelOf = (row: Element) => row.querySelector(".label-name")?.textContent ?? "";
    const rows = [...(widget?.querySelectorAll<HTMLElement>(".monaco-list-row") ?? [])];
    rows.sort((a, b) => Number(a.dataset.index) - Number(b.dataset.index));
    const focused = rows.find((row) => row.classList.contains("focused"));
    const progress = widget?.querySelector(".monaco-progress-container");
    const busy = !!progress && !progress.classList.contains("done");
    return { labels: rows.map(labelOf), focused: focused && labelOf(focused), busy };
  });
}
