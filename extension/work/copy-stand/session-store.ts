/** Judged scans on disk, one entry each, so that a session that was ended goes on without measuring anything again. */
import { deserialize, serialize } from "node:v8";
import type { ByteCache } from "../../scans/files/cache.ts";
import { hashOf } from "../files/content-hash.ts";
import type { SessionScan } from "./session.ts";
import type { WrittenJournal } from "./recipe/written.ts";

export interface SessionStore {
  /** The scan as it was judged; undefined where its file has changed since, or nothing is kept. */
  read(name: string, stamp: string): Promise<SessionScan | undefined>;
  write(scan: SessionScan): Promise<void>;
  readWritten(): Promise<WrittenJournal>;
  writeWritten(journal: WrittenJournal): Promise<void>;
  /** Key of a scan's positive in the same cache. */
  positiveKey(name: string, stamp: string): string;
}

/** Raise it when a judged scan's shape or the way of measuring changes: old ones are then measured again. */
const FORM = 4;

/** @param session what tells this session from others: the folder, and the recipe where there is one */
export function sessionStore(cache: ByteCache, session: readonly string[], version: string): SessionStore {
  const keyOf = (kind: string, ...of: string[]): string =>
    `${kind}-${hashOf([...session, version, FORM, ...of]).slice(0, 40)}`;
  const get = async <T>(key: string, is: (value: unknown) => value is T): Promise<T | undefined> => {
    const bytes = await cache.read(key);
    try {
      const value: unknown = bytes && deserialize(bytes);
      return is(value) ? value : undefined;
    } catch {
      return undefined; // damaged: it is measured again
    }
  };
  return {
    read: (name, stamp) =>
      get(keyOf("stand", name), (value): value is SessionScan => {
        const scan = value as Partial<SessionScan> | undefined;
        return scan?.name === name && scan.stamp === stamp && scan.verdict !== undefined;
      }),
    write: (scan) => cache.write(keyOf("stand", scan.name), serialize(scan)),
    async readWritten() {
      const isJournal = (value: unknown): value is WrittenJournal =>
        typeof (value as Partial<WrittenJournal> | undefined)?.written === "object";
      return (await get(keyOf("stand-written"), isJournal)) ?? { written: {} };
    },
    writeWritten: (journal) => cache.write(keyOf("stand-written"), serialize(journal)),
    positiveKey: (name, stamp) => keyOf("positive", name, stamp),
  };
}
