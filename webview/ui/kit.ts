/**
 * What a set of controls has to offer. Two sets keep this contract (tests/browser/kits.test.ts holds both to it), so
 * that the archived toolkit can be dropped by changing one line in index.ts. See docs/decisions/webview-controls.md.
 */

/** A control: its element, and setters for what can change. */
export interface Button {
  readonly element: HTMLElement;
  set(change: { label?: string; title?: string; enabled?: boolean; pressed?: boolean }): void;
}

export interface ButtonSpec {
  readonly label: string;
  /** Longer words for the tooltip; also what a screen reader says where there is an icon. */
  readonly title?: string;
  /** Path data of a 16 × 16 icon that stands in place of the label. */
  readonly icon?: string;
  /** A word that stands beside the icon, within the button. */
  readonly beside?: string;
  readonly kind?: "primary" | "secondary" | "quiet";
  /** Makes it a button that stays in: `aria-pressed` on what has the button's role says which way it is. */
  readonly pressed?: boolean;
  readonly onPress: () => void;
}

export interface Choice<T extends string> {
  readonly element: HTMLElement;
  set(change: { value?: T; options?: readonly (readonly [value: T, label: string])[]; enabled?: boolean }): void;
}

export interface ChoiceSpec<T extends string> {
  readonly label: string;
  readonly options: readonly (readonly [value: T, label: string])[];
  readonly value: T;
  readonly onChange: (value: T) => void;
}

export interface Check {
  readonly element: HTMLElement;
  set(change: { checked?: boolean; enabled?: boolean }): void;
}

export interface CheckSpec {
  readonly label: string;
  readonly title?: string;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
}

export interface Kit {
  button(spec: ButtonSpec): Button;
  choice<T extends string>(spec: ChoiceSpec<T>): Choice<T>;
  check(spec: CheckSpec): Check;
}

/** What a button with an icon is called: what is seen of it first, so that it can be spoken to (WCAG 2.2, 2.5.3). */
export const nameOf = ({ label, title, beside }: Pick<ButtonSpec, "label" | "title" | "beside">): string =>
  [...(beside ? [beside] : []), title ?? label].join(": ");

/** What is seen on a button with an icon. */
export function faceOf(icon: string, beside: string | undefined): readonly Element[] {
  if (beside === undefined) return [iconOf(icon)];
  const words = document.createElement("span");
  words.textContent = beside;
  return [iconOf(icon), words];
}

/** An icon from path data, drawn in the text's colour. */
function iconOf(path: string): SVGSVGElement {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  svg.setAttribute("viewBox", "0 0 16 16");
  svg.setAttribute("width", "16");
  svg.setAttribute("height", "16");
  svg.setAttribute("aria-hidden", "true");
  const shape = document.createElementNS("http://www.w3.org/2000/svg", "path");
  shape.setAttribute("d", path);
  svg.append(shape);
  return svg;
}
