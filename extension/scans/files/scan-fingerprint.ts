/** The fingerprint of a scan, whether its bytes are here or only a pointer that states it. */
import { brokenLink, MAX_POINTER, notFetched, pointerIn } from "./pointer.ts";
import { type Fingerprint, fingerprint } from "./fingerprint.ts";
import { withFile } from "./source.ts";

/**
 * Of a Git LFS pointer, or a git-annex key with SHA-256, what it states of the scan: a roll can be locked, and its lock
 * checked, before the scans are fetched.
 * @throws ScanError where the file cannot be read, "not-fetched" where its pointer states no SHA-256
 */
export async function scanFingerprint(path: string): Promise<Fingerprint> {
  const pointer =
    brokenLink(path) ??
    (await withFile(path, (source) => Promise.resolve(pointerIn(source.read(0, MAX_POINTER), source.size))));
  if (pointer?.sha256 !== undefined && pointer.size !== undefined)
    return { size: pointer.size, sha256: pointer.sha256 };
  if (pointer) throw notFetched(path, pointer);
  return fingerprint(path);
}
