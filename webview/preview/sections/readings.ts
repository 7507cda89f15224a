/** The densitometer: a table of readings, under the pointer and pinned. */
import type { FrameLook, OutputSpace, Rgb } from "../../../extension/engine/types.ts";
import { el } from "../../dom.ts";
import type { Source } from "../../render/source.ts";
import type { Session } from "../session.ts";
import type { Point } from "../../state/affine.ts";
import { type PlaceReading, reader } from "../../state/readings.ts";
import { kit } from "../../ui/index.ts";
import { removePin } from "../picture/gestures.ts";
import { ICONS } from "../icons.ts";
import { section } from "./section.ts";
import { t } from "../../translate.ts";

const signed = (v: number, decimals: number): string => `${v > 0 ? "+" : ""}${v.toFixed(decimals)}`.replace("-", "−");
const three = (v: Rgb, decimals: number, sign = false): string[] =>
  v.map((x) => (sign ? signed(x, decimals) : x.toFixed(decimals).replace("-", "−")));

/** Rows of the table: what it is, its unit, more words for the tooltip, and its three numbers. */
type Row = readonly [name: string, unit: string, about: string, of: (r: PlaceReading) => readonly string[] | undefined];
const rowsOf = (): readonly Row[] => [
  [
    t("Camera"),
    "%",
    t("Signal of the camera, percent of saturation: red, green, blue"),
    (r) => r.camera && three(r.camera.map((v) => v * 100) as unknown as Rgb, 1),
  ],
  [
    t("Transmittance"),
    "%",
    t("Light that the film lets through, percent: red, green, blue"),
    (r) => three(r.transmittance.map((v) => v * 100) as unknown as Rgb, 2),
  ],
  [t("Above base"), "D", t("Density above base: red, green, blue"), (r) => three(r.density, 2, true)],
  [t("Exposure"), t("EV"), t("Exposure in EV from mid-grey: red, green, blue"), (r) => three(r.stops, 2, true)],
  [
    t("Print"),
    "L* a* b*",
    t("The print under D50: L*, a*, b*"),
    (r) => [r.lab[0].toFixed(1), signed(r.lab[1], 1), signed(r.lab[2], 1)],
  ],
];

/** What the three columns are: the last row's own are in its unit. */
const headOf = (): HTMLElement => {
  const names = [t("R"), t("G"), t("B")];
  const words = [t("Red"), t("Green"), t("Blue")];
  const cells = names.map((name, i) => el("th", { scope: "col", "aria-label": words[i] }, name));
  return el("thead", {}, el("tr", {}, el("th", { scope: "col" }, t("Reading")), ...cells));
};

export function makeReadings(session: Session): HTMLElement {
  const pin = kit.button({
    label: t("Pin readings"),
    beside: t("Pin"),
    title: t("Click places in the picture to keep their readings here; click a pin to remove it"),
    icon: ICONS.pin,
    kind: "quiet",
    pressed: false,
    onPress: () => session.ui({ tool: session.store.get().ui.tool === "pin" ? "look" : "pin" }),
  });
  const table = el("table", { class: "readings" });
  const element = section(session, "readings", t("Readings"), el("div", { class: "buttons" }, pin.element), table);
  let made:
    | { source: Source; look: FrameLook; space: OutputSpace; read: (at: Point) => PlaceReading | undefined }
    | undefined;

  function block(title: string, reading: PlaceReading | undefined, remove?: () => void): HTMLElement {
    const head = el("th", { colspan: "4", scope: "rowgroup" }, title);
    if (remove) {
      const button = el("button", { type: "button", class: "link", "aria-label": t("Remove {0}", title) }, t("Remove"));
      button.addEventListener("click", remove);
      head.append(button);
    }
    const rows = rowsOf().map(([name, unit, about, of]) => {
      const values = (reading && of(reading)) ?? ["–", "–", "–"];
      const rowHead = el("th", { scope: "row", title: about }, `${name} `, el("span", { class: "unit" }, unit));
      return el("tr", {}, rowHead, ...values.map((v) => el("td", {}, v)));
    });
    return el("tbody", {}, el("tr", {}, head), ...rows);
  }

  session.store.on(({ ui, source, current, pointer }) => {
    pin.set({ pressed: ui.tool === "pin" });
    const [frame, look] = [session.frame(), session.look()];
    if (!element.open || !frame || !look || !source || !current) return table.replaceChildren();
    if (!made || made.source !== source || made.look !== look || made.space !== frame.space)
      made = { source, look, space: frame.space, read: reader(source, look, frame.space, frame) };
    const { read } = made;
    const pins = ui.pins[frame.id] ?? [];
    table.replaceChildren(
      headOf(),
      block(pointer ? t("Under the pointer") : t("Point at the picture"), pointer && read(pointer)),
      ...pins.map((p, i) => block(t("Pin {0}", i + 1), read(p), () => removePin(session, i))),
    );
  });
  return element;
}
