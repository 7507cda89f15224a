/** A real browser for tests: bundles a page's script with esbuild and opens it in headless Chromium, without any network. */
import { build } from "esbuild";
import { type Browser, chromium, type Page } from "playwright-core";
import { CHROMIUM } from "./chromium-path.ts";

export { hasChromium } from "./chromium-path.ts";

/** Tests and benches run from the project's own folder. */
const root = process.cwd();

export const launch = (): Promise<Browser> =>
  chromium.launch({
    executablePath: CHROMIUM,
    args: ["--no-sandbox", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--force-color-profile=srgb"],
  });

export interface Bundle {
  readonly script: string;
  readonly style: string;
}

/** Bundles as extension/build.mjs does for the panel. */
export async function bundle(entry: string, format: "esm" | "iife" = "esm"): Promise<Bundle> {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: [entry],
    bundle: true,
    write: false,
    outdir: "out",
    format,
    platform: "browser",
    target: "es2022",
    logLevel: "warning",
  });
  const text = (end: string): string => outputFiles.find((f) => f.path.endsWith(end))?.text ?? "";
  return { script: text(".js"), style: text(".css") };
}

/**
 * Opens files (by path under one made-up origin) as a page; everything else is refused.
 * @param watch called with the page before anything is loaded
 */
export async function open(
  browser: Browser,
  files: Readonly<Record<string, { type: string; body: string | Buffer }>>,
  viewport = { width: 900, height: 1000 },
  watch?: (page: Page) => void,
): Promise<Page> {
  const page = await browser.newPage({ viewport });
  watch?.(page);
  await page.route("**/*", async (route) => {
    const { pathname, origin } = new URL(route.request().url());
    const file = origin === ORIGIN ? files[pathname] : undefined;
    if (file) await route.fulfill({ contentType: file.type, body: file.body });
    else await route.abort();
  });
  await page.goto(`${ORIGIN}/`);
  return page;
}
const ORIGIN = "https://panel.invalid";
