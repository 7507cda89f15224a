/** What lies in the command's cache. */
import { lstat, readdir } from "node:fs/promises";
import { join } from "node:path";
import { CACHE_ENDING } from "../../../scans/files/cache.ts";

export interface CacheEntry {
  /** Absolute. */
  readonly path: string;
  /** The folder in the cache that it lies in. */
  readonly room: string;
  readonly bytes: number;
}

/** Every entry in the folders of the cache; links are not followed, and files of other kinds are left out. */
export async function cacheEntries(folder: string): Promise<CacheEntry[]> {
  const rooms = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const found = rooms
    .filter((room) => room.isDirectory())
    .map(async ({ name: room }): Promise<CacheEntry[]> => {
      const names = (await readdir(join(folder, room))).filter((name) => name.endsWith(CACHE_ENDING));
      const entries = names.toSorted().map(async (name) => {
        const path = join(folder, room, name);
        const stats = await lstat(path).catch(() => undefined);
        return stats?.isFile() ? [{ path, room, bytes: stats.size }] : [];
      });
      return (await Promise.all(entries)).flat();
    });
  return (await Promise.all(found)).flat();
}

export const totalBytes = (entries: readonly { readonly bytes: number }[]): number =>
  entries.reduce((sum, { bytes }) => sum + bytes, 0);
