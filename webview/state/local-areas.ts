/** Areas of local exposure while they are drawn and moved: handles, moves, new ones, and how they stand in a recipe. */
import { localAreaOf, type StatedArea } from "../../extension/engine/local/stated.ts";
import type { FrameLook, ShownPoint } from "../../extension/engine/types.ts";
import { clamp } from "../../extension/engine/math/clamp.ts";
import type { FrameEntry, ValueEdit } from "../../extension/messages.ts";
import { rounded } from "./controls.ts";

const LOCAL_PATH = ["positive", "local"];

export type ShapeKind = "line" | "oval" | "polygon";
export const SHAPE_KINDS: readonly ShapeKind[] = ["line", "oval", "polygon"];

/** A look that prints these areas. */
export function withAreas(look: FrameLook, areas: readonly StatedArea[]): FrameLook {
  const { local: _, ...rest } = look;
  const local = areas.flatMap((area) => localAreaOf(area) ?? []);
  return local.length > 0 ? { ...rest, local } : rest;
}

/** The edit that gives a frame these areas; none takes the key out, unless roll or stock state some. */
export function setAreas(
  { id, inheritsAreas }: Pick<FrameEntry, "id" | "inheritsAreas">,
  areas: readonly StatedArea[],
): ValueEdit[] {
  const value = areas.length > 0 || inheritsAreas ? areas.map(written) : undefined;
  return [{ path: ["frames", id, ...LOCAL_PATH], value }];
}

/** As it goes into the text: places to four decimals, and no key that says its default. */
function written(area: StatedArea): StatedArea {
  const point = ([x, y]: ShownPoint): ShownPoint => [place(x), place(y)];
  const { id, name, line, oval, polygon, turn = 0, feather, exposure = 0, filtration = {}, contrast = 1 } = area;
  const filters = Object.entries(filtration).filter(([, cc]) => cc !== 0);
  return {
    ...(id === undefined ? {} : { id }),
    ...(name === undefined || name === "" ? {} : { name }),
    ...(line ? { line: [point(line[0]), point(line[1])] as const } : {}),
    ...(oval ? { oval: [place(oval[0]), place(oval[1]), radius(oval[2]), radius(oval[3])] as const } : {}),
    ...(polygon ? { polygon: polygon.map(point) } : {}),
    ...(turn === 0 ? {} : { turn: rounded(turn, 1) }),
    ...(feather === undefined ? {} : { feather: rounded(feather, 3) }),
    ...(exposure === 0 ? {} : { exposure: rounded(exposure, 2) }),
    ...(filters.length === 0 ? {} : { filtration: Object.fromEntries(filters) }),
    ...(contrast === 1 ? {} : { contrast: rounded(contrast, 2) }),
  };
}

/** Places may lie outside of the picture by its own size. */
const place = (v: number): number => rounded(clamp(v, -1, 2), 4);
const radius = (v: number): number => rounded(clamp(v, 0.002, 2), 4);

export const kindOf = (area: StatedArea): ShapeKind | undefined => SHAPE_KINDS.find((kind) => area[kind] !== undefined);

/** A new area drawn from one corner to the other, burning by half a stop; its id is new among the others. */
export function newArea(
  kind: ShapeKind,
  [x0, y0]: ShownPoint,
  [x1, y1]: ShownPoint,
  others: readonly StatedArea[],
): StatedArea {
  const ids = new Set(others.map(({ id }) => id));
  let n = 1;
  while (ids.has(`a${n}`)) n++;
  const about = { id: `a${n}`, exposure: -0.5 };
  if (kind === "line")
    return {
      ...about,
      line: [
        [x0, y0],
        [x1, y1],
      ],
    };
  if (kind === "oval") {
    const radii = [Math.abs(x1 - x0) / 2, Math.abs(y1 - y0) / 2].map((r) => Math.max(r, 0.01));
    return { ...about, oval: [(x0 + x1) / 2, (y0 + y1) / 2, radii[0], radii[1]] };
  }
  return {
    ...about,
    polygon: [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
  };
}

/** A handle of an area: what moves when it is dragged. */
export interface AreaHandle {
  readonly key: string;
  readonly at: ShownPoint;
  /** "all" moves the area, "corner" may be deleted, "between" becomes a corner when it is moved. */
  readonly role: "all" | "end" | "radius" | "corner" | "between";
}

/** @param aspect width over height of the picture as shown */
export function handlesOf(area: StatedArea, aspect: number): readonly AreaHandle[] {
  const middle = (points: readonly ShownPoint[]): ShownPoint => [
    points.reduce((sum, p) => sum + p[0], 0) / points.length,
    points.reduce((sum, p) => sum + p[1], 0) / points.length,
  ];
  const { line, oval, polygon } = area;
  if (line)
    return [
      { key: "all", at: middle(line), role: "all" },
      { key: "0", at: line[0], role: "end" },
      { key: "1", at: line[1], role: "end" },
    ];
  if (oval) {
    const [x, y] = oval;
    return [
      { key: "all", at: [x, y], role: "all" },
      { key: "across", at: outlineOf(area, aspect, 0), role: "radius" },
      { key: "down", at: outlineOf(area, aspect, 90), role: "radius" },
    ];
  }
  if (!polygon) return [];
  return [
    { key: "all", at: middle(polygon), role: "all" },
    ...polygon.map((at, i): AreaHandle => ({ key: String(i), at, role: "corner" })),
    ...polygon.map((at, i): AreaHandle => ({
      key: `between ${i}`,
      at: middle([at, polygon[(i + 1) % polygon.length]]),
      role: "between",
    })),
  ];
}

/** A point of an oval's outline, at an angle before it is turned, in degrees. */
export function outlineOf({ oval = [0, 0, 0, 0], turn = 0 }: StatedArea, aspect: number, angle: number): ShownPoint {
  const [x, y, a, b] = oval;
  const [p, q] = [a * aspect * Math.cos(angle * DEGREE), b * Math.sin(angle * DEGREE)];
  const [cos, sin] = [Math.cos(turn * DEGREE), Math.sin(turn * DEGREE)];
  return [x + (p * cos - q * sin) / aspect, y + p * sin + q * cos];
}
const DEGREE = Math.PI / 180;

/** The area with a handle at another place. */
export function movedHandle(area: StatedArea, key: string, to: ShownPoint, aspect: number): StatedArea {
  const { line, oval, polygon } = area;
  const handle = handlesOf(area, aspect).find((one) => one.key === key);
  if (!handle) return area;
  if (key === "all") return movedBy(area, to[0] - handle.at[0], to[1] - handle.at[1]);
  if (line) return { ...area, line: key === "0" ? [to, line[1]] : [line[0], to] };
  if (oval) return withRadius(area, oval, key, to, aspect);
  if (!polygon) return area;
  const [, after] = key.split(" ");
  const corners = [...polygon];
  if (after === undefined) corners[Number(key)] = to;
  else corners.splice(Number(after) + 1, 0, to);
  return { ...area, polygon: corners };
}

/** The handle at the end of a radius sets its length; that of the horizontal one the turn as well. */
function withRadius(
  area: StatedArea,
  [x, y, a, b]: NonNullable<StatedArea["oval"]>,
  key: string,
  to: ShownPoint,
  aspect: number,
): StatedArea {
  const [dx, dy] = [(to[0] - x) * aspect, to[1] - y];
  const length = Math.hypot(dx, dy);
  if (key === "across") {
    const turn = Math.round((Math.atan2(dy, dx) / DEGREE) * 10) / 10;
    return { ...area, turn, oval: [x, y, Math.max(0.002, length / aspect), b] };
  }
  return { ...area, oval: [x, y, a, Math.max(0.002, length)] };
}

function movedBy(area: StatedArea, dx: number, dy: number): StatedArea {
  const moved = ([x, y]: ShownPoint): ShownPoint => [x + dx, y + dy];
  const { line, oval, polygon } = area;
  return {
    ...area,
    ...(line ? { line: [moved(line[0]), moved(line[1])] as const } : {}),
    ...(oval ? { oval: [oval[0] + dx, oval[1] + dy, oval[2], oval[3]] as const } : {}),
    ...(polygon ? { polygon: polygon.map(moved) } : {}),
  };
}

/** A polygon without a corner; one of three keeps them. */
export function withoutCorner(area: StatedArea, key: string): StatedArea {
  const { polygon } = area;
  return polygon && polygon.length > 3 ? { ...area, polygon: polygon.filter((_, i) => String(i) !== key) } : area;
}
