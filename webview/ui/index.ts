/** The panel's controls. This line chooses the set. */
export { toolkitKit as kit } from "./toolkit.ts";
export { slider, type Slider, type SliderSpec } from "./slider.ts";
export { iconOf } from "./kit.ts";
export type { Button, Check, Choice } from "./kit.ts";
