/** The job that makes an output's soft proof. */
import type { ScreenSpace } from "../../scans/icc/proof.ts";
import { makeProof } from "../../scans/icc/proof.ts";
import { folderCache } from "../../scans/files/cache.ts";
import { sealed, unsealed } from "../../scans/files/checksum.ts";
import { fingerprintOf } from "../../scans/files/fingerprint.ts";
import { hashOf } from "../files/content-hash.ts";
import { type PrinterRequest, readProfile } from "./encode-sheet.ts";

export interface ProofRequest extends PrinterRequest {
  readonly screen: ScreenSpace;
  /** Where proofs are kept, and how much of everything there. */
  readonly cache: { readonly folder: string; readonly maxBytes: number };
}

/** Raise it when the same profile gives another table. */
const FORM = 1;

/**
 * The bytes of a proof's table (engine/colour/proof-table.ts), 16 bits little-endian. It is kept by the profile's content, so
 * that the same profile under another name is not worked through again.
 * @throws JobError "unreadable" or "profile" where the printer's profile cannot be used
 */
export async function proofOfPrinter({ cache, screen, ...printer }: ProofRequest): Promise<Uint8Array> {
  const profile = readProfile(printer.file);
  const kept = folderCache(cache.folder, cache.maxBytes);
  const { sha256 } = await fingerprintOf(profile.bytes);
  const key = `proof-${hashOf([FORM, sha256, printer.intent, printer.compensate, screen]).slice(0, 40)}`;
  const known = await kept.read(key).then((bytes) => bytes && unsealed(bytes));
  if (known) return new Uint8Array(known);
  const table = await makeProof({ ...printer, profile }, screen);
  const bytes = new Uint8Array(table.buffer);
  await kept.write(key, sealed(bytes));
  return bytes;
}
