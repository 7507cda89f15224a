/** Kill -9 while entries of the cache are written: afterwards every entry is whole or taken for absent. */
import { buildSync } from "esbuild";
import { spawn } from "node:child_process";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as after } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { folderCache } from "../../extension/scans/files/cache.ts";
import { parseProxy } from "../../extension/scans/proxy.ts";

const LIMIT = 20e6;
/** Two together, so that there is something for one to drop that the other reads. */
const WRITERS = 2;

export async function playCacheFault(folder: string, random: () => number): Promise<string[]> {
  const program = join(folder, "writer.mjs");
  buildSync({
    entryPoints: [fileURLToPath(new URL("cache-writer.ts", import.meta.url))],
    bundle: true,
    platform: "node",
    format: "esm",
    outfile: program,
    external: ["sharp"],
    logLevel: "silent",
  });
  const cacheFolder = join(folder, "cache");
  const writers = Array.from({ length: WRITERS }, (_, k) =>
    spawn(process.execPath, [program, cacheFolder, String(k), String(LIMIT)], { stdio: ["ignore", "pipe", "inherit"] }),
  );
  await Promise.all(writers.map((w) => new Promise((begun) => w.stdout.once("data", begun))));
  await after(random() * 400);
  const ends = writers.map((w) => new Promise((ended) => w.on("exit", ended)));
  for (const writer of writers) writer.kill("SIGKILL");
  await Promise.all(ends);

  const cache = folderCache(cacheFolder, LIMIT);
  const lost: string[] = [];
  for (const name of readdirSync(cacheFolder).filter((n) => n.endsWith(".cache"))) {
    const bytes = await cache.read(name.slice(0, -".cache".length));
    if (!bytes || !parseProxy(bytes)) lost.push(`${name} is not whole`);
  }
  await cache.write("next", new Uint8Array(10));
  if ((await cache.read("next"))?.length !== 10) lost.push("the cache takes nothing any more");
  return lost;
}
