/** What a file's name says of whether it is a scan. What a scan really is, its content tells (scans/recognise.ts). */

// oxfmt-ignore
export const RAW_ENDINGS = new Set(["3fr", "arw", "cr2", "cr3", "crw", "dng", "erf", "fff", "iiq", "kdc", "mef", "mos", "mrw", "nef", "nrw", "orf", "pef", "raf", "raw", "rw2", "rwl", "sr2", "srf", "srw", "x3f"]);
/** From the best to the last resort. */
export const SCAN_KINDS = ["raw", "tiff", "jpeg"] as const;
export type ScanKind = (typeof SCAN_KINDS)[number];

/** The kind of scan that a name's ending stands for; undefined for files that are no scans. */
export function scanKind(name: string): ScanKind | undefined {
  const ending = /\.([^.]+)$/.exec(name)?.[1].toLowerCase() ?? "";
  if (RAW_ENDINGS.has(ending)) return "raw";
  if (ending === "tif" || ending === "tiff") return "tiff";
  return ending === "jpg" || ending === "jpeg" ? "jpeg" : undefined;
}

/** Whether a file of a folder is taken for a scan without asking: a known ending, not hidden, in no folder of a computer's own. */
export const isScanPath = (path: string): boolean =>
  scanKind(path) !== undefined && path.split("/").every((part) => !part.startsWith(".") && part !== "__MACOSX");

/**
 * Whether a name may be written into a recipe as a scan's. Makers invent endings for their raw files, so more is offered
 * than is taken without asking: everything that is not known to be something else.
 */
export const mayBeScanName = (name: string): boolean =>
  /\.[a-z0-9]{2,4}$/i.test(name) && !/^\.|\.(ya?ml|json|csv|md|txt|xmp|html?|pdf|zip|m[po][4v]|avi|wav)$/i.test(name);

/** Whether a name is that of an ICC profile, by the endings in common use. */
export const mayBeProfileName = (name: string): boolean => /\.ic[cm]$/i.test(name);
