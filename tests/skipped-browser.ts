/** Says at the end of a run which tests were skipped for want of Chromium, and the command that brings it. */
import type { Reporter, TestModule } from "vitest/node";
import { CHROMIUM, hasChromium } from "./browser/chromium-path.ts";

/** The closing lines, or nothing where every browser test could run. */
export function closingLines(files: readonly string[], has: boolean): string[] {
  const skipped = files.filter((file) => /(^|\/)tests\/browser\//.test(file));
  if (has || skipped.length === 0) return [];
  return [
    `SKIPPED: the browser tests of ${skipped.length} files, because there is no Chromium at ${CHROMIUM}.`,
    "To run them:  sudo apt-get install chromium   (or set CHROMIUM to a Chromium of yours)",
  ];
}

export class SkippedBrowserTests implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const lines = closingLines(
      modules.map((module) => module.moduleId),
      hasChromium,
    );
    if (lines.length) process.stdout.write(`\n${lines.join("\n")}\n`);
  }
}
