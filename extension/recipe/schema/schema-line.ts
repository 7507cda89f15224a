/** The first line of a recipe whose editor is to check it by a copy of the schema. */
import { folderOf } from "../paths.ts";

/**
 * @param recipe path of the recipe, with / between folders
 * @param schema path of the schema, of the same form and from the same folder
 * @returns the line with the schema's path relative to the recipe, and a line break
 */
export function schemaLine(recipe: string, schema: string): string {
  const from = folderOf(recipe).split("/");
  const to = schema.split("/");
  let common = 0;
  while (common < Math.min(from.length, to.length - 1) && from[common] === to[common]) common++;
  const up = from
    .slice(common)
    .filter((part) => part !== "")
    .map(() => "..");
  const path = [...(up.length > 0 ? up : ["."]), ...to.slice(common)].join("/");
  return `# yaml-language-server: $schema=${path}\n`;
}
