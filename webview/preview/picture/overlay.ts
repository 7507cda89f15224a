/** What lies over the picture: crop with its handles, spots, pinned readings, the wipe, the keyboard's cross. */
import { isLine, type LineSpot, radiusOf, type RoundSpot, type Spot } from "../../../extension/engine/image/spot.ts";
import { svg } from "../../dom.ts";
import type { Session } from "../session.ts";
import { type Affine, apply, chained, growth, type Point, scaling } from "../../state/affine.ts";
import { handleAt, HANDLES } from "../../state/crop.ts";
import type { Layout, Picture } from "./picture.ts";

export interface Overlay {
  readonly element: SVGSVGElement;
  /** What is being drawn, in fractions of the scan. */
  draw(shape: DrawnShape | undefined): void;
}

type DrawnShape =
  | { readonly kind: "rectangle" | "line" | "circle"; readonly from: Point; readonly to: Point }
  /** A hair or a scratch; its width in parts of the scan's width. */
  | { readonly kind: "course"; readonly points: readonly Point[]; readonly width: number };

export function makeOverlay(session: Session, picture: Picture): Overlay {
  const element = svg("svg", { class: "overlay", "aria-hidden": "true" });
  let shape: DrawnShape | undefined;

  /** From pixels of the scan to CSS pixels of the overlay. */
  const maps = (layout: Layout): Affine[] => layout.maps.map((m) => chained(m, scaling(1 / layout.ratio)));

  function refresh(layout = picture.layout()): void {
    element.replaceChildren();
    const frame = session.frame();
    const model = session.store.get();
    if (!layout || !frame || !model.current) return;
    const { scanWidth: width, scanHeight: height } = layout.source;
    const { ui } = model;
    for (const [pane, map] of maps(layout).entries()) {
      const group = svg("g");
      const box = layout.paneBoxes[pane];
      const clip = `room-${pane}`;
      const r = layout.ratio;
      group.append(
        svg(
          "clipPath",
          { id: clip },
          svg("rect", { x: box.x / r, y: box.y / r, width: box.width / r, height: box.height / r }),
        ),
      );
      group.setAttribute("clip-path", `url(#${clip})`);
      if (ui.tool === "crop") group.append(...cropShapes(model.draft?.area ?? frame.area, width, height, map));
      group.append(
        ...model.pending.filter((one) => one.frame === frame.id).map(({ spot }) => pendingShape(spot, width, map)),
      );
      if (ui.tool === "spots") {
        group.append(...frame.spots.map((s, i) => spotShape(s, "film", i, width, map)));
        group.append(...frame.lightSpots.map((s, i) => spotShape(s, "light", i, width, map)));
      }
      const { proposals } = model;
      group.append(...(proposals?.spots ?? []).map((s, i) => proposalShape(s, i === proposals?.chosen, width, map)));
      for (const [i, pin] of (ui.pins[frame.id] ?? []).entries())
        group.append(...pinShapes(pin, i, width, height, map));
      if (shape) group.append(drawnShape(shape, width, height, map));
      if (ui.tool !== "look" && model.pointer && document.activeElement === element.parentElement)
        group.append(crossShape(model.pointer, width, height, map));
      element.append(group);
      // With a wipe both sides lie over one another: once is enough.
      if (ui.compare !== "beside") break;
    }
  }
  picture.onLayout(refresh);
  return {
    element,
    draw(next) {
      shape = next;
      refresh();
    },
  };
}

const at = (p: Point, width: number, height: number, map: Affine): Point => apply(map, [p[0] * width, p[1] * height]);
const text = (points: readonly Point[]): string => points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ");

function cropShapes(area: Parameters<typeof handleAt>[0], width: number, height: number, map: Affine): SVGElement[] {
  const size = { width, height };
  const corner = (x: -1 | 1, y: -1 | 1): Point => apply(map, handleAt(area, size, [x, y]));
  const inner = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
  const outer = (
    [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ] as const
  ).map((p) => apply(map, p));
  const path = (points: readonly Point[]): string =>
    `M${points.map((p) => p.map((v) => v.toFixed(1)).join(" ")).join("L")}Z`;
  const between = (a: Point, b: Point, t: number): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
  const thirds = [1 / 3, 2 / 3].flatMap((t) => [
    [between(inner[0], inner[1], t), between(inner[3], inner[2], t)],
    [between(inner[0], inner[3], t), between(inner[1], inner[2], t)],
  ]);
  return [
    svg("path", { class: "crop-outside", "fill-rule": "evenodd", d: path(outer) + path(inner) }),
    ...thirds.map(([a, b]) => svg("line", { class: "crop-third", x1: a[0], y1: a[1], x2: b[0], y2: b[1] })),
    svg("polygon", { class: "crop-edge", points: text(inner) }),
    ...HANDLES.map((handle) => {
      const [x, y] = apply(map, handleAt(area, size, handle));
      return svg("rect", {
        class: "crop-handle",
        x: x - 5,
        y: y - 5,
        width: 10,
        height: 10,
        "data-handle": handle.join(" "),
      });
    }),
  ];
}

function spotShape(spot: Spot, kind: "film" | "light", index: number, width: number, map: Affine): SVGElement {
  const r = Math.max(4, radiusOf(spot) * width * growth(map));
  const shape = isLine(spot) ? outlineAlong(spot, r, width, map) : circleAt(spot, r, width, map);
  return svg(shape.name, { ...shape.at, class: `spot ${kind}`, "data-spot": `${kind} ${index}` });
}

/** A spot that is on its way into the text: it cannot be clicked yet. */
function pendingShape(spot: Spot, width: number, map: Affine): SVGElement {
  const r = Math.max(4, radiusOf(spot) * width * growth(map));
  const shape = isLine(spot) ? outlineAlong(spot, r, width, map) : circleAt(spot, r, width, map);
  return svg(shape.name, { ...shape.at, class: "pending" });
}

/** A ring around the speck, or an outline around the line, which itself stays to be seen. */
function proposalShape(spot: Spot, isChosen: boolean, width: number, map: Affine): SVGElement {
  const r = Math.max(7, 1.5 * radiusOf(spot) * width * growth(map) + 3);
  const shape = isLine(spot) ? outlineAlong(spot, r, width, map) : circleAt(spot, r, width, map);
  return svg(shape.name, { ...shape.at, class: isChosen ? "proposal chosen" : "proposal" });
}

interface Shape {
  readonly name: "circle" | "path";
  readonly at: Readonly<Record<string, string | number>>;
}

function circleAt([x, y]: RoundSpot, r: number, width: number, map: Affine): Shape {
  const [cx, cy] = apply(map, [x * width, y * width]);
  return { name: "circle", at: { cx, cy, r } };
}

/** Along one side of a line, around its end, and back along the other side. */
function outlineAlong({ line }: LineSpot, r: number, width: number, map: Affine): Shape {
  const course = line.map(([x, y]) => apply(map, [x * width, y * width]));
  const side = (points: readonly Point[]): Point[] =>
    points.map(([x, y], k) => {
      const [[ax, ay], [bx, by]] = [points[Math.max(0, k - 1)], points[Math.min(points.length - 1, k + 1)]];
      const long = Math.hypot(bx - ax, by - ay) || 1;
      return [x - (r * (by - ay)) / long, y + (r * (bx - ax)) / long];
    });
  const arc = `A${r} ${r} 0 0 0 `;
  const [there, back] = [side(course), side(course.toReversed())];
  const path = (points: readonly Point[]): string => points.map((p) => p.join(" ")).join("L");
  return { name: "path", at: { d: `M${path(there)}${arc}${path(back)}${arc}${there[0].join(" ")}Z` } };
}

function pinShapes(pin: Point, index: number, width: number, height: number, map: Affine): SVGElement[] {
  const [x, y] = at(pin, width, height, map);
  return [
    svg("circle", { class: "pin", cx: x, cy: y, r: 9, "data-pin": index }),
    svg("text", { class: "pin-number", x, y: y + 3.5, "data-pin": index }, String(index + 1)),
  ];
}

function crossShape(point: Point, width: number, height: number, map: Affine): SVGElement {
  const [x, y] = at(point, width, height, map);
  return svg("path", { class: "cross", d: `M${x - 10} ${y}h8m4 0h8M${x} ${y - 10}v8m0 4v8` });
}

function drawnShape(shape: DrawnShape, width: number, height: number, map: Affine): SVGElement {
  if (shape.kind === "course") {
    const points = text(shape.points.map((p) => at(p, width, height, map)));
    return svg("polyline", { class: "course", points, "stroke-width": courseWidth(shape.width, width, map) });
  }
  const { kind, from, to } = shape;
  const [a, b] = [at(from, width, height, map), at(to, width, height, map)];
  if (kind === "line") return svg("line", { class: "drawn", x1: a[0], y1: a[1], x2: b[0], y2: b[1] });
  if (kind === "circle")
    return svg("circle", { class: "drawn", cx: a[0], cy: a[1], r: Math.hypot(b[0] - a[0], b[1] - a[1]) });
  const other = (p: Point, q: Point): Point => at([p[0], q[1]], width, height, map);
  return svg("polygon", { class: "drawn", points: text([a, other(from, to), b, other(to, from)]) });
}

/** A line as broad as what it will heal, and never too fine to be seen. */
const courseWidth = (part: number, width: number, map: Affine): number => Math.max(1.5, part * width * growth(map));
