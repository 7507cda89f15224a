/**
 * Scans that git or a data store keeps elsewhere: what lies in their place, and how to fetch them.
 *
 * Git LFS: a text of at most 1024 bytes, whose first line names the version and others oid and size (the Git LFS
 * specification, "The Pointer"). git-annex: a link into .git/annex/objects, or a text that begins /annex/objects/; the last
 * part is a key, such as SHA256E-s1234--HASH.dng (git-annex documentation, "key format" and "pointer file"). Stores that link into a
 * cache: a plain link to what is not there, or NAME.dvc beside a file that is missing.
 */
import { existsSync, readlinkSync } from "node:fs";
import { basename, dirname } from "node:path";
import { ScanError } from "../errors.ts";

/** Size and SHA-256 that a pointer states of the scan; absent where its kind of key has another hash. */
export interface Pointer {
  readonly store: "Git LFS" | "git-annex" | "data store";
  readonly size?: number;
  readonly sha256?: string;
}

/** No pointer is longer. */
export const MAX_POINTER = 1024;

/** @param head a file's first bytes, up to MAX_POINTER; @param size of the whole file in bytes */
export function pointerIn(head: Uint8Array, size: number): Pointer | undefined {
  if (size > MAX_POINTER || size === 0) return undefined;
  const text = new TextDecoder("latin1").decode(head);
  if (text.startsWith("version https://git-lfs.github.com/spec/v1\n")) {
    const oid = /^oid sha256:([0-9a-f]{64})$/m.exec(text)?.[1];
    const bytes = /^size (\d{1,15})$/m.exec(text)?.[1];
    return { store: "Git LFS", ...(oid && bytes ? { sha256: oid, size: Number(bytes) } : {}) };
  }
  const annexed = /^\/annex\/objects\/([^\n/]+)\n?/.exec(text)?.[1];
  return annexed === undefined ? undefined : keyPointer(annexed);
}

/** A link whose target is not there; undefined where the path is no such link. */
export function brokenLink(path: string): Pointer | undefined {
  let target: string;
  try {
    target = readlinkSync(path);
  } catch {
    return undefined;
  }
  if (existsSync(path)) return undefined;
  return /[\\/]annex[\\/]objects[\\/]/.test(target) ? keyPointer(basename(target)) : { store: "data store" };
}

/** A key that ends a git-annex link: BACKEND-sSIZE--HASH, with more fields and an ending for some. */
function keyPointer(key: string): Pointer {
  const found = /^SHA256E?-(?:[a-z]\d+-)*?s(\d{1,15})(?:-[a-z]\d+)*--([0-9a-f]{64})(?:\.[\w.]*)?$/i.exec(key);
  return { store: "git-annex", ...(found ? { size: Number(found[1]), sha256: found[2].toLowerCase() } : {}) };
}

/** What is said where a scan should be decoded and only its pointer is here. */
export function notFetched(path: string, { store }: Pointer): ScanError {
  const name = basename(path);
  const [what, command] = {
    "Git LFS": ["is a Git LFS pointer", `git lfs pull --include "**/${name}"`],
    "git-annex": ["is a git-annex pointer", `git annex get ${name}, in ${dirname(path)}`],
    "data store": ["is a link to a file that is not there", "your data store's own command (such as: dvc pull)"],
  }[store];
  return new ScanError(
    "not-fetched",
    path,
    `${what}: the scan itself is not on this computer`,
    `Fetch it first: ${command}.`,
  );
}

/** Why there is no file at a path, where a store could fetch it. */
export function missingFromStore(path: string): ScanError | undefined {
  const link = brokenLink(path);
  if (link) return notFetched(path, link);
  if (!existsSync(`${path}.dvc`)) return undefined;
  const name = basename(path);
  return new ScanError(
    "not-fetched",
    path,
    `is not on this computer; ${name}.dvc beside it says that a data store has it`,
    `Fetch it first: dvc pull ${name}, in ${dirname(path)}.`,
  );
}
