/** `value` limited to `min` … `max`; NaN becomes `min`. `max` may not be below `min`. */
export function clamp(value: number, min: number, max: number): number {
  return value > min ? Math.min(value, max) : min;
}
