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

export type Quotes = "plain" | "single" | "double";

/**
 * A text on one line, in the wanted quotes where they can hold it, otherwise in double quotes.
 * Inside brackets (`flow`) fewer texts can stand without quotes.
 */
export function formatText(value: string, quotes: Quotes = "plain", flow = false): string {
  if (quotes === "plain" && isPlain(value, flow)) return value;
  if (quotes === "single" && !unprintable.test(value)) return `'${value.replaceAll("'", "''")}'`;
  return JSON.stringify(value).replaceAll(/[\u007f-\u00a0\u2028\u2029\ufeff\ufffe\uffff]/g, escape);
}

// eslint-disable-next-line no-control-regex
const unprintable = /[\u0000-\u001f\u007f-\u00a0\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]/;
const escape = (character: string): string => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`;

/** What YAML 1.2's core schema reads as something else than text, and what older readers do. */
const notText =
  /^(?:[-+]?[0-9][0-9_,.]*(?:[eE][-+]?[0-9]+)?|[-+]?\.[0-9]+(?:[eE][-+]?[0-9]+)?|0[ox][0-9a-fA-F]+|[-+]?\.(?:inf|nan)|null|true|false|yes|no|on|off|y|n|~|=|<<)$/i;

function isPlain(value: string, flow: boolean): boolean {
  if (value === "" || value.trim() !== value || unprintable.test(value) || notText.test(value)) return false;
  if (/^[-?:,[\]{}#&*!|>'"%@`.]/.test(value) && !/^\.{0,2}\/?[A-Za-z0-9_]/.test(value)) return false;
  if (/:(?:\s|$)|\s#|^<{7}/.test(value)) return false;
  return !flow || !/[,[\]{}:]/.test(value);
}

/**
 * A text of several lines as a literal block, its lines without indentation; undefined for a text that a plain literal
 * block cannot hold as it is.
 */
export function literalBlock(value: string): readonly string[] | undefined {
  const body = value.endsWith("\n") ? value.slice(0, -1) : value;
  const lines = body.split("\n");
  if (
    lines.length < 2 ||
    /^[ \n]|[ \t]$|\n$/.test(body) ||
    lines.some((line) => unprintable.test(line) || /^\s+$/.test(line))
  )
    return undefined;
  return [value.endsWith("\n") ? "|" : "|-", ...lines];
}
