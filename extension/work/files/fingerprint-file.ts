/** The job that reads a scan's fingerprint. */
import { type Fingerprint, fingerprint } from "../../scans/files/fingerprint.ts";
import { scanFingerprint } from "../../scans/files/scan-fingerprint.ts";

/** Size and SHA-256 of a scan; of one that a store keeps elsewhere, as its pointer states them. */
export function fingerprintScan({ path }: { readonly path: string }): Promise<Fingerprint> {
  return scanFingerprint(path);
}

/** Size and SHA-256 of a file. */
export function fingerprintFile({ path }: { readonly path: string }): Promise<Fingerprint> {
  return fingerprint(path);
}
