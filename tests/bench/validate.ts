/**
 * What it costs to check a recipe: 36 frames (bar: 20 ms, warm) and 2,000 frames. Parsing includes YAML, schema and
 * meaning; "around" adds the stock, the scans and every frame's resolved values.
 * Run: npx esbuild tests/bench/validate.ts --bundle --platform=node --format=esm --outfile=dist/validate.mjs
 *      && node dist/validate.mjs
 */
import { parseRecipe } from "../../extension/recipe/problems/document.ts";
import { folds } from "../../extension/recipe/language/folding.ts";
import { contextAt } from "../../extension/recipe/language/completion/context.ts";
import { frameLenses } from "../../extension/recipe/language/lenses.ts";
import { symbols } from "../../extension/recipe/language/symbols.ts";
import { loadDocument } from "../../extension/recipe/resolve/workspace.ts";
import { files, longRoll } from "../unit/recipe/language/recipes.ts";
import { MemoryWorkspace } from "../unit/recipe/language/memory.ts";

/** Median of the last runs in milliseconds; the first ones let the machine warm up. */
async function measure(run: () => unknown, warm: number, runs: number): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < warm + runs; i++) {
    const start = performance.now();
    await run();
    if (i >= warm) times.push(performance.now() - start);
  }
  return times.toSorted((a, b) => a - b)[times.length >> 1]!;
}

const lines: string[] = ["frames,characters,what,milliseconds"];
for (const frames of [36, 2000]) {
  const text = longRoll(frames);
  const scans = Object.fromEntries(
    Array.from({ length: frames }, (_, i) => [`scans/H${String(i + 1).padStart(4, "0")}.dng`, ""]),
  );
  const workspace = new MemoryWorkspace({ "long.roll.yaml": text, ...files, ...scans });
  const options = { file: "/w/long.roll.yaml", roots: ["/w"] };
  const read = {
    roots: ["/w"],
    read: workspace.read.bind(workspace),
    exists: workspace.exists.bind(workspace),
    list: workspace.list.bind(workspace),
  };
  const document = parseRecipe(text, options);
  if (document.problems.length > 0)
    throw new Error(`The bench's recipe is not sound: ${document.problems[0]!.message}`);
  const [warm, runs] = frames > 100 ? [3, 9] : [40, 60];
  const rows = {
    "parse, first time": await measure(() => parseRecipe(`${text}# ${frames}`, options), 0, 1),
    parse: await measure(() => parseRecipe(text, options), warm, runs),
    around: await measure(() => loadDocument(document, read), warm, runs),
    outline: await measure(() => symbols(document), warm, runs),
    folding: await measure(() => folds(document), warm, runs),
    lenses: await measure(() => frameLenses(document, document.problems), warm, runs),
    "caret at the end": await measure(() => contextAt(text, text.length), warm, runs),
  };
  for (const [what, time] of Object.entries(rows)) lines.push(`${frames},${text.length},${what},${time.toFixed(2)}`);
}
console.log(lines.join("\n"));
