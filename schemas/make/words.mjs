// What a definition says of itself, in words: shared by the schemas, the types and the reference.

const number = (x) => String(x).replace("-", "−");
const json = (x) => (typeof x === "string" ? x : JSON.stringify(x)?.replaceAll(",", ", "));

export const unitOf = (schema) => schema["x-unit"];

/** "0 to 0.2", "up to 5", or undefined. Lists of numbers state the range of their items. */
export function rangeOf(schema) {
  const from = schema.minimum ?? (Array.isArray(schema.items) ? undefined : schema.items?.minimum);
  const to = schema.maximum ?? (Array.isArray(schema.items) ? undefined : schema.items?.maximum);
  if (from === undefined && to === undefined) return undefined;
  if (to === undefined || to === Number.MAX_SAFE_INTEGER) return `from ${number(from)}`;
  return from === undefined ? `up to ${number(to)}` : `${number(from)} to ${number(to)}`;
}

export const defaultOf = (schema) => schema["x-default"] ?? json(schema.default);

/** The whole description as editors show it: meaning, unit, range, allowed values, default. */
export function fullDescription(schema) {
  const parts = [schema.description];
  if (unitOf(schema)) parts.push(`Unit: ${unitOf(schema)}.`);
  if (rangeOf(schema)) parts.push(`Range: ${rangeOf(schema)}.`);
  if (schema.enum) parts.push(`One of: ${schema.enum.join(", ")}.`);
  if (defaultOf(schema) !== undefined) parts.push(`Default: ${defaultOf(schema)}.`);
  return parts.filter(Boolean).join(" ");
}
