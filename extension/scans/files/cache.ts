/** A folder of things that can be made again, kept below a size by dropping what was not used for longest. */
import { readdir, readFile, stat, unlink, utimes } from "node:fs/promises";
import { join } from "node:path";
import { writeAtomic } from "./atomic.ts";

export interface ByteCache {
  read(key: string): Promise<Uint8Array | undefined>;
  /** Keeps the bytes if it can; a cache that cannot write is slow, not broken. */
  write(key: string, bytes: Uint8Array): Promise<void>;
}

/** Ending of every entry's name. */
export const CACHE_ENDING = ".cache";

/**
 * Several processes may share the folder: entries appear whole, and an entry that another process has just dropped
 * counts as not there.
 * @param maxBytes size that all entries together may have
 */
export function folderCache(folder: string, maxBytes: number): ByteCache {
  const pathOf = (key: string) => {
    if (!/^[\w-]{1,120}$/.test(key)) throw new Error(`"${key}" is no key of a cache: letters, digits, - and _ only.`);
    return join(folder, key + CACHE_ENDING);
  };
  return {
    async read(key) {
      const path = pathOf(key);
      try {
        const bytes = await readFile(path);
        const now = new Date();
        await utimes(path, now, now); // the time of last use, for choosing what to drop
        return bytes;
      } catch {
        return undefined;
      }
    },
    async write(key, bytes) {
      if (bytes.length > maxBytes) return;
      const path = pathOf(key);
      await evictOldest(folder, maxBytes - bytes.length, path);
      await writeAtomic(path, bytes).catch(() => {});
    },
  };
}

/** Drops entries, the longest unused first, until the others have at most `limit` bytes. */
async function evictOldest(folder: string, limit: number, replaced: string): Promise<void> {
  const entries = await entriesOf(folder);
  let total = 0;
  // Newest first: what is still within the limit stays.
  for (const entry of entries.sort((a, b) => b.used - a.used || (a.path < b.path ? -1 : 1))) {
    if (entry.path === replaced) continue;
    total += entry.size;
    if (total > limit) await unlink(entry.path).catch(() => {});
  }
}

async function entriesOf(folder: string): Promise<{ path: string; size: number; used: number }[]> {
  const names = await readdir(folder).catch(() => [] as string[]);
  const entries = await Promise.all(
    names
      .filter((name) => name.endsWith(CACHE_ENDING))
      .map(async (name) => {
        const path = join(folder, name);
        const stats = await stat(path).catch(() => undefined);
        return stats ? [{ path, size: stats.size, used: stats.mtimeMs }] : [];
      }),
  );
  return entries.flat();
}
