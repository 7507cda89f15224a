import { type Fingerprint, fingerprint } from "../../scans/files/fingerprint.ts";

/** Size and SHA-256 of a file. */
export function fingerprintFile({ path }: { readonly path: string }): Promise<Fingerprint> {
  return fingerprint(path);
}
