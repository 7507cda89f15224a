/** `value` limited to `least` … `most`; NaN becomes the lower limit. `most` may not be below `least`. */
export function clamp(value: number, min: number, max: number): number {
  return value > min ? Math.min(value, max) : min;
}
