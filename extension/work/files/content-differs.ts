/** The job that compares a file's content with a hash. */
import { blobId, fingerprint } from "../../scans/files/fingerprint.ts";

export interface ContentDiffers {
  /** Absolute path. */
  readonly path: string;
  /** What identifies the content, as a Snapshot has it. */
  readonly content: string;
}

/**
 * Whether a file's content is another one. The file is read as it is: no filter of git's is applied.
 * @throws ScanError where the file cannot be read
 */
export async function contentDiffers({ path, content }: ContentDiffers): Promise<boolean> {
  const [, own] = /^sha256:(.+)$/.exec(content) ?? [];
  if (own !== undefined) return (await fingerprint(path)).sha256 !== own;
  // 40 digits are SHA-1, 64 SHA-256.
  return (await blobId(path, content.length === 64 ? "sha256" : "sha1")) !== content;
}
