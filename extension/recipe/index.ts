/**
 * Recipes as a module of the npm package (`rollbook/recipe`): reading, checking, resolving, editing, formatting,
 * comparing and merging their text. Nothing here reads files by itself. Explained in docs/library.md. Nothing within
 * the project imports it.
 */
export type { RecipeKind, RecipePath, TextRange } from "./path.ts";
export { hasErrors, type Problem, type ProblemCode } from "./problems.ts";
export { type ParseOptions, parseRecipe, type RecipeDocument } from "./problems/document.ts";
export type { Pointer } from "./resolve/pointer.ts";
export { type ResolvedFrame, type ResolvedOutput, type ResolvedRoll, resolveRoll } from "./resolve/resolve.ts";
export { type LoadedRoll, loadRoll, type RecipeFiles } from "./resolve/workspace.ts";
export { applyChanges, type Edit, editRecipe, RecipeEditError, type TextChange, type ValueEdit } from "./edit/edit.ts";
export { formatRecipe, type Formatted, tryFormat } from "./edit/layout/format.ts";
export { migrateRecipe } from "./edit/versions.ts";
export { type Upgrade, upgradeRecipe } from "./edit/upgrade.ts";
export { CURRENT_VERSION, type RecipeVersion, versionOf } from "./version.ts";
export { type Change, diffRecipes, type RecipeDiff, type RecipeState } from "./diff/diff.ts";
export { recipeListing } from "./diff/listing.ts";
export { type MergedText, type MergeOptions, mergeRecipes } from "./merge/merge.ts";
