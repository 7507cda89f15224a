/** Numbers and texts as recipes write them. */

/** A number printed shortest: at most six decimals, no exponent, no noise of binary fractions, no minus zero. */
export function formatNumber(value: number): string {
  if (!Number.isFinite(value))
    throw new RangeError(`${value} cannot be written into a recipe: only finite numbers can.`);
  if (Number.isInteger(value))
    return Math.abs(value) < 1e21 ? String(value === 0 ? 0 : value) : BigInt(value).toString();
  const text = value.toFixed(6).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
}
