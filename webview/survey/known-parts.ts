/** The report's HTML as nodes of the page, of which only what a report is made of is taken over. */

const ELEMENTS = new Set(
  "article button circle div figcaption figure h2 h3 image p rect span strong svg table tbody td th thead tr".split(
    " ",
  ),
);
const ATTRIBUTES = new Set(
  "aria-label class cx cy data-finding data-frame fill height r role stroke stroke-width type viewBox width x y".split(
    " ",
  ),
);
/** Pictures stand in the text itself: nothing is fetched. */
const PICTURE = /^data:image\/jpeg;base64,[A-Za-z0-9+/=]*$/;

/**
 * What comes from recipes and files is escaped in the text already; should it ever not be, no other element and no
 * other attribute gets into the page. A parsed document runs nothing and loads nothing.
 */
export function knownParts(html: string): Node[] {
  return copies(new DOMParser().parseFromString(html, "text/html").body);
}

const copies = (of: Node): Node[] => [...of.childNodes].flatMap((node) => copy(node) ?? []);

function copy(node: Node): Node | undefined {
  if (node instanceof Text) return document.createTextNode(node.data);
  if (!(node instanceof Element) || !ELEMENTS.has(node.localName)) return undefined;
  const made = document.createElementNS(node.namespaceURI, node.localName);
  for (const { name, value } of node.attributes)
    if (ATTRIBUTES.has(name) || (name === "href" && node.localName === "image" && PICTURE.test(value)))
      made.setAttribute(name, value);
  made.append(...copies(node));
  return made;
}
