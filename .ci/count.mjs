// Adds up the closing lines of the test runs in a log and prints "N passed, N failed". No test at all is a failure.
import { readFileSync } from "node:fs";
import { stripVTControlCharacters } from "node:util";

const log = stripVTControlCharacters(readFileSync(process.argv[2], "utf8"));
let passed = 0;
let failed = 0;
let skipped = 0;
for (const line of log.split("\n")) {
  if (!/^\s*Tests\s/.test(line)) continue;
  const count = (word) => Number(new RegExp(`(\\d+) ${word}`).exec(line)?.[1] ?? 0);
  passed += count("passed");
  failed += count("failed");
  skipped += count("skipped");
}
console.log(`${passed} passed, ${failed} failed${skipped ? `, ${skipped} skipped` : ""}`);
if (failed > 0 || passed === 0) process.exit(1);
