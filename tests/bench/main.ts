/**
 * Benches by name. Usage: node dist/bench.mjs NAME [options]; a name alone shows what it measures.
 * Each is a program of its own that runs when it is loaded.
 */
import { isMainThread } from "node:worker_threads";

const benches: Readonly<Record<string, () => Promise<unknown>>> = {
  "plan-run": () => import("./plan-run.ts"),
  "first-picture": () => import("./first-picture.ts"),
  render: () => import("./render.ts"),
  stages: () => import("./stages.ts"),
  survey: () => import("./survey.ts"),
  "copy-stand": () => import("./copy-stand.ts"),
  lens: () => import("./lens.ts"),
  falloff: () => import("./falloff.ts"),
  "large-scan": () => import("./large-scan.ts"),
  bracket: () => import("./bracket.ts"),
  grid: () => import("./grid.ts"),
  "grid-picture": () => import("./grid-picture.ts"),
  strip: () => import("./strip.ts"),
  "bracket-picture": () => import("./bracket-picture.ts"),
  "dust-model": () => import("./dust-model.ts"),
  "dust-scores": () => import("./dust-scores.ts"),
  "first-positive": () => import("./first-positive.ts"),
  "automatic-start": () => import("./automatic-start/main.ts"),
};

if (!isMainThread) await import("./bare-worker.ts");
else {
  const name = process.argv[2] ?? "";
  if (Object.hasOwn(benches, name)) await benches[name]();
  else {
    console.error(`There is no bench "${name}"; there are ${Object.keys(benches).join(", ")}.`);
    process.exitCode = 2;
  }
}
