// Pages of a VSIX whose repository has no public address: nothing in them leads to a file that is not shipped.

/** What a link or a picture leads to, where it is neither an address nor a place in the same page. */
const RELATIVE = "\\((?![a-z][a-z0-9+.-]*:|#)[^)\\s]+\\)";
const PICTURE = new RegExp(`!\\[[^\\]]*\\]${RELATIVE}`, "gi");
const LINK = new RegExp(`\\[([^\\]]+)\\]${RELATIVE}`, "gi");

/**
 * @param markdown a page with links and pictures relative to the repository
 * @returns the page with such links as their text, without such pictures, and without rows and tables that held nothing else
 */
export function withoutRelativeLinks(markdown) {
  let code = false;
  const kept = [];
  for (const line of markdown.split("\n")) {
    if (line.startsWith("```")) code = !code;
    if (code) {
      kept.push(line);
      continue;
    }
    const rest = line.replace(PICTURE, "");
    if (rest === line || /[^|\s]/.test(rest)) kept.push(rest.replace(LINK, "$1"));
    else if (/^\|[-|: ]+\|$/.test(kept.at(-1) ?? "")) kept.splice(-2); // a table's head, whose one row this was
  }
  return kept.join("\n").replaceAll(/\n{3,}/g, "\n\n");
}
