/** Where the browser of the tests is. */
import { existsSync } from "node:fs";

export const CHROMIUM = process.env["CHROMIUM"] ?? "/usr/bin/chromium";

/** Tests that need the browser are skipped where there is none; tests/skipped-browser.ts says so at the end. */
export const hasChromium = existsSync(CHROMIUM);
