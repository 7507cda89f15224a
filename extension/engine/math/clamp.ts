/** `value` limited to `least` … `most`; NaN becomes the lower limit. `most` may not be below `least`. */
export function clamp(value: number, least: number, most: number): number {
  return value > least ? Math.min(value, most) : least;
}
