/** One browser for a file of tests and one page a test; a page that complained on its console fails its test. */
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll } from "vitest";
import { launch } from "./chromium.ts";

/** A page that was opened, and what it complained of so far. */
interface Opened {
  readonly page: Page;
  readonly pageErrors: readonly string[];
}

/** To be called within the describe block whose tests show pages. */
export function usePage() {
  let browser: Browser;
  let opened: Opened | undefined;
  const forgiven: RegExp[] = [];

  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser.close());
  afterEach(async () => {
    const last = opened;
    opened = undefined;
    await last?.page.close();
    const errors = last?.pageErrors.filter((one) => !forgiven.some((pattern) => pattern.test(one))) ?? [];
    forgiven.length = 0;
    if (errors.length > 0) throw new Error(`The page complained: ${errors.join("\n")}`);
  });

  return {
    /** Opens the page of a test; it is closed when the test ends. */
    async show(open: (browser: Browser) => Promise<Opened>): Promise<Page> {
      opened = await open(browser);
      return opened.page;
    },
    /** Errors that the test brings about on purpose. */
    forgive: (pattern: RegExp): void => void forgiven.push(pattern),
  };
}
