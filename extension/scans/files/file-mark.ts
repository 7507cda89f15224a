/** What tells whether a path still leads to what it led to: plain texts, which cross to other processes. */
import { type BigIntStats, lstatSync, statSync } from "node:fs";

/** Device and inode of what lies at a path, links not followed, with size and time; undefined where nothing is. */
export function fileMark(path: string): string | undefined {
  const stats = lstatSync(path, { bigint: true, throwIfNoEntry: false });
  return stats && `${identityOf(stats)}:${stats.size}:${stats.mtimeNs}`;
}

/** Device and inode of the folder that a path leads to; undefined where there is none. */
export function folderMark(path: string): string | undefined {
  const stats = statSync(path, { bigint: true, throwIfNoEntry: false });
  return stats?.isDirectory() ? identityOf(stats) : undefined;
}

/** "device:inode". Some network disks number nothing: there the inode is 0. */
export const identityOf = ({ dev, ino }: BigIntStats): string => `${dev}:${ino}`;
