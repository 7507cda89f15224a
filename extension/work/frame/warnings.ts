/** A sentence about exposure settings that scan or blank do not state; none when only the f-number is unknown. */
export function unknownExposure(unknown: readonly string[]): string[] {
  // A lens without contacts never states its f-number, and on a copy stand nobody turns it between two scans.
  const missing = unknown.filter((name) => name !== "aperture");
  if (missing.length === 0) return [];
  const names = missing.map((name) => (name === "iso" ? "ISO" : "shutter time")).join(" and ");
  return [`Scan and blank do not both state their ${names}; they are taken as exposed alike.`];
}
