/** Exposure of one scan against another, from what the camera wrote. */

/** The three settings that decide how much light a scan got. Unknown values are absent. */
export interface ExposureSettings {
  /** Shutter time in seconds. */
  readonly shutter?: number;
  readonly iso?: number;
  /** f-number. */
  readonly aperture?: number;
}

/** How much more exposure a scan got than its reference, and which settings could not be compared. */
export interface RelativeExposure {
  /** 2 means twice the light; 1 where nothing is known. */
  readonly ratio: number;
  /** Settings that one side or both do not state; they are taken as equal. */
  readonly unknown: readonly ("shutter" | "iso" | "aperture")[];
}

const known = (value: number | undefined): value is number =>
  value !== undefined && Number.isFinite(value) && value > 0;

/**
 * Exposure of `scan` over exposure of `reference`: shutter time × ISO ÷ f-number² (the photographic exposure
 * relation of ISO 2720). A setting is compared only where both state it: a lens without contacts writes no
 * f-number, and on a copy stand it is the same lens at the same stop.
 */
export function relativeExposure(scan: ExposureSettings, reference: ExposureSettings): RelativeExposure {
  const unknown: ("shutter" | "iso" | "aperture")[] = [];
  const compare = (name: "shutter" | "iso" | "aperture"): number => {
    const a = scan[name];
    const b = reference[name];
    if (known(a) && known(b)) return a / b;
    unknown.push(name);
    return 1;
  };
  const aperture = compare("aperture");
  const ratio = (compare("shutter") * compare("iso")) / (aperture * aperture);
  return { ratio, unknown };
}
