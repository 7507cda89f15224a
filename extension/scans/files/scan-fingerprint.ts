/** The fingerprint of a scan, whether its bytes are here or only a pointer that states it. */
import { notFetched, pointerAt } from "./pointer.ts";
import { withFile } from "./source.ts";
import { type Fingerprint, fingerprint } from "./fingerprint.ts";

/**
 * Of a Git LFS pointer, or a git-annex key with SHA-256, what it states of the scan: a roll can be locked, and its lock
 * checked, before the scans are fetched.
 * @throws ScanError where the file cannot be read, "not-fetched" where its pointer states no SHA-256
 */
export async function scanFingerprint(path: string): Promise<Fingerprint> {
  const pointer = await pointerAt(path);
  if (pointer?.sha256 !== undefined && pointer.size !== undefined)
    return { size: pointer.size, sha256: pointer.sha256 };
  if (pointer) throw notFetched(path, pointer);
  await withFile(path, () => Promise.resolve()); // an empty file has no fingerprint worth keeping
  return fingerprint(path);
}
