/** `rollbook cache`: what is kept that can be made again, and its removal. */
import { relative } from "node:path";
import { unlink } from "node:fs/promises";
import { cacheEntries, totalBytes } from "../work/files/cache/cache-entries.ts";
import { cacheFolder } from "../work/files/cache/cache-folder.ts";
import { DRY_RUN_OPTION, isDryRun } from "./dry-run.ts";
import { EXIT, flag, type Verb } from "./verb.ts";

export const cache: Verb = {
  name: "cache",
  summary: "show what is kept for speed, or remove it",
  usage: "[--clear] [--dry-run]",
  details:
    "Lists the folders of the command's cache with entries and sizes. --clear removes the entries and nothing else: whatever\n" +
    "was kept is made again when it is needed. An editor keeps its own cache in its own folder.",
  example: "rollbook cache --clear",
  options: { clear: { help: "remove every entry" }, ...DRY_RUN_OPTION },
  files: [0, 0],
  async run(call) {
    const { terminal } = call;
    const folder = cacheFolder();
    const entries = await cacheEntries(folder);
    terminal.print(`${folder}: ${countText(entries)}`);
    for (const room of new Set(entries.map((entry) => entry.room)))
      terminal.print(`  ${room}: ${countText(entries.filter((entry) => entry.room === room))}`);
    const removes = flag(call, "clear") && !isDryRun(call);
    if (removes) for (const { path } of entries) await unlink(path);
    if (flag(call, "clear"))
      terminal.print(removes ? `${entries.length} entries removed.` : `Would remove ${entries.length} entries.`);
    terminal.result({
      ok: true,
      folder,
      entries: entries.map(({ path, bytes }) => ({ file: relative(folder, path), bytes })),
      bytes: totalBytes(entries),
      removed: removes ? entries.length : 0,
    });
    return EXIT.good;
  },
};

const countText = (entries: readonly { bytes: number }[]): string =>
  `${entries.length === 1 ? "1 entry" : `${entries.length} entries`}, ${(totalBytes(entries) / 1e6).toFixed(1)} MB`;
