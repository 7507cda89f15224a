import { chromium, type Browser, type Page } from "playwright-core";
import { LIMIT } from "../wait.ts";

/** A page with what went wrong in it. */
export interface WatchedPage {
  page: Page;
  /** Addresses outside this machine that the page asked for; every one was refused. */
  foreign: string[];
  /** Error messages of the page's console. */
  errors: string[];
}

const FLAGS = [
  "--no-sandbox", // the tests may run as root, in a container
  "--disable-gpu",
  "--disable-quic",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--disable-dev-shm-usage",
  "--force-color-profile=srgb", // the same pixels on every machine
  "--use-angle=swiftshader", // WebGL2 in software
  "--enable-unsafe-swiftshader",
];

/**
 * Starts Chromium: the program that CHROMIUM names, else Debian's.
 * @param temporary folder for its profile, which is removed with that folder even when this process is killed
 */
export async function launchBrowser(temporary: string): Promise<Browser> {
  const before = process.env.TMPDIR;
  process.env.TMPDIR = temporary; // where Playwright makes the profile
  try {
    return await chromium.launch({ executablePath: process.env.CHROMIUM || "/usr/bin/chromium", args: FLAGS });
  } finally {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
  }
}

/** Opens a page that cannot leave this machine; VS Code's service worker serves the webviews' own addresses. */
export async function openPage(browser: Browser, size = { width: 1400, height: 900 }): Promise<WatchedPage> {
  const context = await browser.newContext({ viewport: size, locale: "en-GB" });
  const page = await context.newPage();
  page.setDefaultTimeout(LIMIT);
  const watched: WatchedPage = { page, foreign: [], errors: [] };
  await context.route(/^https?:\/\/(?!127\.0\.0\.1[:/]|[^/]*vscode-resource\.vscode-cdn\.net\/)/, (route) => {
    watched.foreign.push(route.request().url());
    return route.abort();
  });
  page.on("console", (message) => {
    if (message.type() === "error") watched.errors.push(message.text());
  });
  return watched;
}
