/** A language without letters: what still has some on a page was not made with `word` (webview/translate.ts). */

/** Marks in the place of texts: a number for each, and the places of its values. */
export function marksOf(): (english: string) => string {
  const marks = new Map<string, string>();
  return (english) => {
    const mark = marks.get(english) ?? `«${marks.size + 1} ${(english.match(/\{\d\}/g) ?? []).join(" ")}»`;
    marks.set(english, mark);
    return mark;
  };
}

/** Runs in the page: everything that is shown or read out and has two Latin letters or more in a row. */
export function lettersLeft(allowed: string): string[] {
  const left = new Set<string>();
  const take = (text: string | null, where: string): void => {
    const rest = (text ?? "").replace(new RegExp(allowed, "g"), "").trim();
    if (/\p{Script=Latin}{2}/u.test(rest)) left.add(`${where}: ${rest}`);
  };
  const NAMES = ["title", "aria-label", "aria-description", "aria-valuetext", "alt", "placeholder"];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
  for (let node: Node | null = walk.currentNode; node; node = walk.nextNode()) {
    if (node instanceof Text && !node.parentElement?.closest("script, style")) take(node.data, "text");
    if (node instanceof Element) for (const name of NAMES) take(node.getAttribute(name), name);
  }
  return [...left];
}
