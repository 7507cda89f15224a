/** Versions of the recipe format: which there are, and which one a recipe is of. */

/** A version whose meaning this Rollbook knows. */
export type RecipeVersion = 1 | 2;

/** The version that new recipes are written in. */
export const CURRENT_VERSION = 2 satisfies RecipeVersion;

/** The version that a recipe's value states; the current one where it states none that is known. */
export function versionOf(value: unknown): RecipeVersion {
  const isStated = typeof value === "object" && value !== null && Object.hasOwn(value, "version");
  return isStated && (value as { version: unknown }).version === 1 ? 1 : CURRENT_VERSION;
}
