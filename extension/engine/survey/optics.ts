/** Optics of a copy stand: what stop, magnification and tilt do to the picture. Lengths in millimetres, angles in degrees. */

/** Wavelength that diffraction is reckoned for: the middle of the visible range. */
const LAMBDA = 550e-6;
/** Frequency at which an ideal round aperture's response is one half, as a part of its cutoff. */
export const HALF_OF_CUTOFF = 0.403973;

/** Working f-number at magnification m: N·(1 + m/p), p the pupil magnification (1 for symmetric lenses). */
export function effectiveAperture(aperture: number, magnification: number, pupil = 1): number {
  return aperture * (1 + magnification / pupil);
}

/** Diameter of the Airy disc at the sensor. */
export const airyDiameter = (effective: number): number => 2.44 * LAMBDA * effective;

/** Frequency at the sensor above which diffraction lets nothing through, cycles per millimetre. */
export const diffractionCutoff = (effective: number): number => 1 / (LAMBDA * effective);

/** Response of an ideal, round, incoherent aperture at a part of its cutoff, 0 … 1. */
export function diffractionResponse(part: number): number {
  if (part >= 1) return 0;
  return (2 / Math.PI) * (Math.acos(part) - part * Math.sqrt(1 - part * part));
}

/** Samples per inch of film. */
export const pixelsPerInch = (magnification: number, pitch: number): number => (25.4 * magnification) / pitch;

/** Depth of sharp focus at the film, both sides together; `blur` is the circle of confusion at the sensor. */
export function depthOfField(aperture: number, blur: number, magnification: number): number {
  return (2 * aperture * blur * (1 + magnification)) / magnification ** 2;
}

/** Diameter of the blur disc on the film where it lies `radius` from the axis of a tilt. */
export function tiltBlur(tilt: number, radius: number, aperture: number, magnification: number): number {
  const depth = radius * Math.tan((tilt * Math.PI) / 180);
  return (depth * magnification) / (aperture * (1 + magnification));
}

/** Tilt in degrees that gives a blur disc of that diameter on the film. */
export function tiltOfBlur(blur: number, radius: number, aperture: number, magnification: number): number {
  return (Math.atan((blur * aperture * (1 + magnification)) / (magnification * radius)) * 180) / Math.PI;
}
