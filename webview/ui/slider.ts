/**
 * A slider: the browser's own range and number inputs for one value. No control set has one that is better, and the
 * toolkit has none. Dragging and typing call `onInput`; `onCommit` comes once a gesture: when the pointer lets go, when
 * a typed number is entered, or when a run of key presses has come to rest.
 */
export interface Slider {
  readonly element: HTMLElement;
  set(change: { value?: number; enabled?: boolean; from?: number; to?: number }): void;
}

export interface SliderSpec {
  readonly label: string;
  readonly title?: string;
  readonly unit?: string;
  readonly from: number;
  readonly to: number;
  readonly step: number;
  readonly decimals: number;
  /** The number field takes values up to here. */
  readonly min: number;
  readonly max: number;
  readonly value: number;
  /** Colours the track's two ends, by name: see preview.css. */
  readonly tint?: string;
  readonly onInput: (value: number) => void;
  readonly onCommit: (value: number) => void;
}

/** Key presses that follow one another within this time are one gesture. */
const COMMIT_DELAY = 450;
let lastId = 0;

interface SliderElements {
  readonly element: HTMLElement;
  readonly range: HTMLInputElement;
  readonly number: HTMLInputElement;
}

function sliderElements(spec: SliderSpec): SliderElements {
  const element = document.createElement("div");
  element.className = "slider";
  if (spec.tint) element.dataset["tint"] = spec.tint;
  const id = `slider-${++lastId}`;
  const label = document.createElement("label");
  label.textContent = spec.label;
  label.htmlFor = id;
  const range = document.createElement("input");
  range.type = "range";
  range.id = id;
  range.step = String(spec.step);
  const number = document.createElement("input");
  number.type = "number";
  number.step = String(spec.step);
  number.min = String(spec.min);
  number.max = String(spec.max);
  number.setAttribute("aria-label", `${spec.label}${spec.unit ? `, ${spec.unit}` : ""}`);
  if (spec.title) {
    element.title = spec.title;
    range.setAttribute("aria-description", spec.title);
  }
  const unit = document.createElement("span");
  unit.className = "unit";
  unit.textContent = spec.unit ?? "";
  element.append(label, range, number, unit);
  return { element, range, number };
}

export function slider(spec: SliderSpec): Slider {
  const { element, range, number } = sliderElements(spec);
  let [from, to] = [spec.from, spec.to];
  let committed = spec.value;
  let rest: ReturnType<typeof setTimeout> | undefined;
  /** A gesture is under way: what comes from outside must not pull the handle away. */
  let live = false;

  function show(value: number): void {
    // A value outside of the usual ends stretches them.
    range.min = String(Math.min(from, value));
    range.max = String(Math.max(to, value));
    range.value = String(value);
    const text = value.toFixed(spec.decimals);
    if (document.activeElement !== number) number.value = text;
    range.setAttribute("aria-valuetext", `${text} ${spec.unit ?? ""}`.trim());
    const [low, high] = [Number(range.min), Number(range.max)];
    element.style.setProperty("--at", String((value - low) / (high - low || 1)));
  }

  function input(value: number): void {
    live = true;
    show(value);
    spec.onInput(value);
  }

  function commit(value: number): void {
    clearTimeout(rest);
    rest = undefined;
    live = false;
    if (value === committed) return;
    committed = value;
    spec.onCommit(value);
  }

  let byKey = false;
  range.addEventListener("keydown", () => (byKey = true));
  range.addEventListener("pointerdown", () => (byKey = false));
  range.addEventListener("input", () => input(range.valueAsNumber));
  range.addEventListener("change", () => {
    if (!byKey) return commit(range.valueAsNumber);
    clearTimeout(rest);
    rest = setTimeout(() => commit(range.valueAsNumber), COMMIT_DELAY);
  });
  range.addEventListener("blur", () => {
    if (rest !== undefined) commit(range.valueAsNumber);
  });
  const typed = (): number | undefined =>
    Number.isFinite(number.valueAsNumber) ? Math.min(spec.max, Math.max(spec.min, number.valueAsNumber)) : undefined;
  number.addEventListener("input", () => {
    const value = typed();
    if (value !== undefined) input(value);
  });
  number.addEventListener("change", () => {
    clearTimeout(rest);
    rest = setTimeout(() => commit(typed() ?? committed), COMMIT_DELAY);
  });
  const enter = (): void => {
    const value = typed() ?? committed;
    commit(value);
    number.value = value.toFixed(spec.decimals);
    show(value);
  };
  number.addEventListener("keydown", (event) => {
    if (event.key === "Enter") enter();
  });
  number.addEventListener("blur", enter);
  show(spec.value);

  return {
    element,
    set(change) {
      if (change.from !== undefined) from = change.from;
      if (change.to !== undefined) to = change.to;
      if (change.value !== undefined && !live) {
        committed = change.value;
        if (document.activeElement === number && number.valueAsNumber !== change.value)
          number.value = change.value.toFixed(spec.decimals);
        show(change.value);
      }
      if (change.enabled !== undefined) range.disabled = number.disabled = !change.enabled;
    },
  };
}
