import type { Page } from "playwright-core";
import { until } from "./wait.ts";

/**
 * Opens a quick input by its key, types, and takes the row whose label is exactly `label`.
 * The list is filled in steps and Enter takes whatever row has the focus at that moment, so this waits until the list
 * has come to rest and then moves the focus with the arrow keys. (A click can miss: rows move, a hover covers them.)
 */
export async function pickFromQuickInput(page: Page, key: string, prefix: string, label: string): Promise<void> {
  const widget = page.locator(".quick-input-widget").first();
  await page.keyboard.press(key);
  const box = widget.locator("input").first();
  await box.waitFor({ state: "visible" });
  await box.fill(prefix + label);
  let last = "";
  let same = 0;
  await until(`a row "${label}" in the quick input`, async () => {
    const list = await readList(page);
    const now = JSON.stringify(list);
    same = now === last && !list.busy ? same + 1 : 0;
    last = now;
    return same >= 2 && list.labels.includes(label);
  });
  await until(`the focus on the row "${label}"`, async () => {
    if ((await readList(page)).focused === label) return true;
    await page.keyboard.press("ArrowDown");
    return false;
  });
  await page.keyboard.press("Enter");
  await widget.waitFor({ state: "hidden" });
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
