/** Makes elements. */
type Child = Node | string | undefined | false;

export function el<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Readonly<Record<string, string | boolean | undefined>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes))
    if (value === true) made.setAttribute(key, "");
    else if (value !== false && value !== undefined) made.setAttribute(key, value);
  made.append(...children.filter((c): c is Node | string => c !== undefined && c !== false));
  return made;
}

export function svg<K extends keyof SVGElementTagNameMap>(
  name: K,
  attributes: Readonly<Record<string, string | number>> = {},
  ...children: readonly (Node | string)[]
): SVGElementTagNameMap[K] {
  const made = document.createElementNS("http://www.w3.org/2000/svg", name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  made.append(...children);
  return made;
}

/** Whether keys belong to what has the focus: a field that is typed into, a slider, a menu. */
export function handlesKeys(target: EventTarget | null): boolean {
  return (
    target instanceof Element && target.closest("input, select, textarea, vscode-dropdown, [role=slider]") !== null
  );
}
