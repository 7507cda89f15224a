/** The panel's controls. This line chooses the set. */
export { toolkitKit as kit } from "./toolkit.ts";
export { slider, type Slider } from "./slider.ts";
export type { Button } from "./kit.ts";
export { rove } from "./roving.ts";
export { type MenuEntry, openMenu } from "./menu.ts";
