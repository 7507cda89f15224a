/** Opens the roll sheet on a page of its own, under the content security policy that it has in the editor. */
import type { Browser, Page } from "playwright-core";
import { bundle, open } from "./chromium.ts";
import { POLICY, rollText, STOCK } from "./open-panel.ts";
import type { SheetPageOptions } from "./sheet.page.ts";
import { themedPage, type ThemeName, themeStyle } from "./themes.ts";

export interface OpenSheetOptions extends Partial<SheetPageOptions> {
  readonly theme?: ThemeName;
  readonly viewport?: { width: number; height: number };
}

type Bundles = readonly [sheet: Awaited<ReturnType<typeof bundle>>, tile: string, preview: string, host: string];
let bundles: Promise<Bundles> | undefined;

const bundled = async (): Promise<Bundles> => {
  const [sheet, tile, preview, host] = await Promise.all([
    bundle("tests/browser/sheet.page.ts"),
    bundle("webview/sheet/tiles/tile-worker.ts", "iife"),
    bundle("webview/preview/preview-worker.ts", "iife"),
    bundle("tests/browser/sheet-host.ts", "iife"),
  ]);
  return [sheet, tile.script, preview.script, host.script];
};

/** @returns the page, and what it complained of on its console */
export async function openSheet(
  browser: Browser,
  { theme = "dark", viewport, ...options }: OpenSheetOptions = {},
): Promise<{ page: Page; pageErrors: string[] }> {
  bundles ??= bundled();
  const [sheet, tile, preview, host] = await bundles;
  const script = (body: string) => ({ type: "text/javascript", body });
  const files = {
    "/": { type: "text/html", body: themedPage(theme, POLICY) },
    "/page.js": script(sheet.script),
    "/page.css": { type: "text/css", body: sheet.style },
    "/theme.css": { type: "text/css", body: themeStyle(theme) },
    "/tile-worker.js": script(tile),
    "/preview-worker.js": script(preview),
    "/sheet-host.js": script(host),
  };
  const pageErrors: string[] = [];
  const page = await open(browser, files, viewport ?? { width: 1280, height: 720 }, (opening) => {
    opening.on("console", (message) => {
      if (message.type() === "error" || message.type() === "warning") pageErrors.push(message.text());
    });
    opening.on("pageerror", (error) => pageErrors.push(error.message));
  });
  await page.waitForFunction(() => "openSheet" in window);
  await page.evaluate((given) => window.openSheet(given), { text: rollText(36), stock: STOCK, ...options });
  return { page, pageErrors };
}
