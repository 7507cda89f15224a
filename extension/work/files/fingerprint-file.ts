import { type Fingerprint, fingerprint } from "../../scans/fingerprint.ts";

/** Size and SHA-256 of a file. */
export function fingerprintFile({ path }: { readonly path: string }): Promise<Fingerprint> {
  return fingerprint(path);
}
