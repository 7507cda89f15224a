/** Opens the panel on a page of its own, under the content security policy that it has in the editor. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { bundle, open } from "./chromium.ts";
import type { PageOptions } from "./panel.page.ts";
import { themedPage, themeStyle, type ThemeName } from "./themes.ts";

/** As extension/editor/preview/page.ts writes it, with the page's own origin in place of the editor's resources. */
export const POLICY =
  "default-src 'none'; img-src 'self' blob: data:; style-src 'self' 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='; script-src 'self' 'wasm-unsafe-eval'; worker-src blob:; connect-src 'self'; font-src 'self'";

export interface OpenOptions extends Partial<PageOptions> {
  readonly theme?: ThemeName;
  readonly viewport?: { width: number; height: number };
  /** Folder of proxies made from real scans. */
  readonly folder?: string;
  /** Makes a proxy when the page asks for it, by its file's name: SCAN.picture.json, SCAN.picture.bin and so on. */
  readonly makeProxy?: (name: string) => Promise<{ readonly type: string; readonly body: string | Buffer }>;
}

let bundles: Promise<readonly [Awaited<ReturnType<typeof bundle>>, Awaited<ReturnType<typeof bundle>>]> | undefined;

/** @returns the page, and what it complained of on its console */
export async function openPanel(
  browser: Browser,
  options: OpenOptions = {},
): Promise<{ page: Page; pageErrors: string[] }> {
  bundles ??= Promise.all([bundle("tests/browser/panel.page.ts"), bundle("webview/preview/preview-worker.ts", "iife")]);
  const [panel, worker] = await bundles;
  const theme = options.theme ?? "dark";
  const files: Record<string, { type: string; body: string | Buffer }> = {
    "/": { type: "text/html", body: themedPage(theme, POLICY) },
    "/page.js": { type: "text/javascript", body: panel.script },
    "/page.css": { type: "text/css", body: panel.style },
    "/theme.css": { type: "text/css", body: themeStyle(theme) },
    "/preview-worker.js": { type: "text/javascript", body: worker.script },
  };
  if (options.folder && existsSync(options.folder))
    for (const name of readdirSync(options.folder))
      files[`/proxies/${name}`] = { type: "application/octet-stream", body: readFileSync(join(options.folder, name)) };
  const pageErrors: string[] = [];
  const page = await open(browser, files, options.viewport, (opening) => {
    opening.on("console", (message) => {
      if (message.type() === "error" || message.type() === "warning") pageErrors.push(message.text());
    });
    opening.on("pageerror", (error) => pageErrors.push(error.message));
  });
  const { makeProxy } = options;
  if (makeProxy)
    await page.route("**/proxies/*", async (route) => {
      const { type, body } = await makeProxy(new URL(route.request().url()).pathname.slice("/proxies/".length));
      await route.fulfill({ contentType: type, body });
    });
  await page.waitForFunction(() => "openPanel" in window);
  const text = options.text ?? rollText(3);
  await page.evaluate((o) => window.openPanel(o), { text, stock: options.stock ?? STOCK, ...pick(options) });
  return { page, pageErrors };
}

function pick(options: OpenOptions): Partial<PageOptions> {
  const { proxies, gpu, worker, surround, trusted, marked, slow, base, proof } = options;
  return { proxies, gpu, worker, surround, trusted, marked, slow, base, proof };
}

export const STOCK = `version: 1
title: Northlight 400
film: colour-negative
negative:
  base: { density: [0.28, 0.58, 0.73] }
  gamma: [0.53, 0.56, 0.63]
positive:
  contrast: 1.5
`;

/** A roll of `count` frames, with the picture cropped out of the wedge's rebate. */
export function rollText(count: number): string {
  const frames = Array.from({ length: count }, (_, i) => {
    const id = String(i + 1).padStart(2, "0");
    return `  "${id}":\n    scan: H${id.padStart(4, "0")}.dng\n    area: { left: 0.05, top: 0.05, width: 0.9, height: 0.9 }`;
  });
  return `version: 1
title: Harbour, first light
stock: ../stocks/northlight-400.stock.yaml
light:
  blank: LIGHT.dng
negative:
  base: { density: [0.31, 0.6, 0.76] }
positive:
  exposure: 0.2 # the whole roll is a little thin
frames:
${frames.join("\n")}
`;
}
