/** Checks a scan against the fingerprint that the recipe was locked with. */
import { JobError } from "../../failure.ts";
import { basename } from "node:path";
import type { Fingerprint } from "../../scans/files/fingerprint.ts";
import { scanFingerprint } from "../../scans/files/scan-fingerprint.ts";

/** Throws when a scan is not the file that the recipe was locked with. Without a lock, everything may be read. */
export async function checkLock(path: string, locked: Fingerprint | undefined): Promise<void> {
  if (!locked) return;
  const found = await scanFingerprint(path);
  if (found.size === locked.size && found.sha256 === locked.sha256) return;
  throw new JobError({
    code: "fingerprint",
    message: `${basename(path)} is not the file that the recipe was locked with.`,
    remedy: "Put the original scan back, or lock the roll’s scans again if the new one is meant.",
    file: path,
  });
}
