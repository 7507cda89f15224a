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

const isStep = (key: string): boolean => key === "PageUp" || key === "PageDown";

/** Lays a value on the range and its track; a value outside of the usual ends stretches them. */
function showOnRange({ element, range }: SliderElements, value: number, [from, to]: readonly [number, number]): void {
  range.min = String(Math.min(from, value));
  range.max = String(Math.max(to, value));
  range.value = String(value);
  const [low, high] = [Number(range.min), Number(range.max)];
  element.style.setProperty("--at", String((value - low) / (high - low || 1)));
}

/** What a person does with the two inputs. */
interface Gestures {
  /** A value while a gesture is under way. */
  readonly input: (value: number) => void;
  /** The value that a gesture ends with. */
  readonly commit: (value: number) => void;
}

interface TypedGestures extends Gestures {
  /** The value that the last gesture ended with. */
  readonly settled: () => number;
  readonly show: (value: number) => void;
}

/** Keys end a gesture once they have rested for a while; the pointer ends it when it lets go. */
function listenToRange({ range }: SliderElements, { input, commit }: Gestures): void {
  let rest: ReturnType<typeof setTimeout> | undefined;
  let byKey = false;
  const end = (): void => {
    clearTimeout(rest);
    rest = undefined;
    commit(range.valueAsNumber);
  };
  range.addEventListener("keydown", ({ key }) => {
    byKey = true;
    // The keys of the panel that step to another frame: what was moved belongs to this one.
    if (isStep(key) && rest !== undefined) end();
  });
  range.addEventListener("pointerdown", () => (byKey = false));
  range.addEventListener("input", () => input(range.valueAsNumber));
  range.addEventListener("change", () => {
    if (!byKey) return end();
    clearTimeout(rest);
    rest = setTimeout(end, COMMIT_DELAY);
  });
  range.addEventListener("blur", () => {
    if (rest !== undefined) end();
  });
}
/** Typing goes on until Enter, until the field is left, or until it has rested for a while. */
function listenToNumber(
  { number }: SliderElements,
  spec: SliderSpec,
  { input, commit, settled, show }: TypedGestures,
): void {
  let rest: ReturnType<typeof setTimeout> | undefined;
  const typed = (): number | undefined =>
    Number.isFinite(number.valueAsNumber) ? Math.min(spec.max, Math.max(spec.min, number.valueAsNumber)) : undefined;
  const end = (): number => {
    clearTimeout(rest);
    const value = typed() ?? settled();
    commit(value);
    return value;
  };
  const enter = (): void => {
    const value = end();
    number.value = value.toFixed(spec.decimals);
    show(value);
  };
  number.addEventListener("input", () => {
    const value = typed();
    if (value !== undefined) input(value);
  });
  number.addEventListener("change", () => {
    clearTimeout(rest);
    rest = setTimeout(end, COMMIT_DELAY);
  });
  number.addEventListener("keydown", (event) => {
    if (event.key === "Enter" || isStep(event.key)) enter();
  });
  number.addEventListener("blur", enter);
}

export function slider(spec: SliderSpec): Slider {
  const elements = sliderElements(spec);
  const { element, range, number } = elements;
  let ends: readonly [from: number, to: number] = [spec.from, spec.to];
  let committed = spec.value;
  /** A gesture is under way: what comes from outside must not pull the handle away. */
  let live = false;

  function show(value: number): void {
    showOnRange(elements, value, ends);
    const text = value.toFixed(spec.decimals);
    if (document.activeElement !== number) number.value = text;
    range.setAttribute("aria-valuetext", `${text} ${spec.unit ?? ""}`.trim());
  }

  const gestures: TypedGestures = {
    input(value) {
      live = true;
      show(value);
      spec.onInput(value);
    },
    commit(value) {
      live = false;
      if (value === committed) return;
      committed = value;
      spec.onCommit(value);
    },
    settled: () => committed,
    show,
  };
  listenToRange(elements, gestures);
  listenToNumber(elements, spec, gestures);
  show(spec.value);

  return {
    element,
    set(change) {
      ends = [change.from ?? ends[0], change.to ?? ends[1]];
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
