/** Checks areas of local exposure: one shape each, polygons that do not cross themselves, places within the picture. */
import { type Aspect, crossesItself, strengthOf } from "../../../engine/local/areas.ts";
import type { LocalShape, ShownPoint } from "../../../engine/types.ts";
import type { RecipePath } from "../../path.ts";
import { type Checked, fields, list, numbers, stated, text, type Fields } from "./check.ts";

const SHAPES = ["line", "oval", "polygon"] as const;

/** Every list of areas, of the roll or stock and of its frames. */
export function checkLocal({ root, report }: Checked): void {
  for (const { path, value } of stated(root, "positive")) {
    const names = new Map<string, number>();
    for (const [i, item] of (list(fields(value)?.local) ?? []).entries()) {
      const area = fields(item);
      if (!area) continue;
      const here = [...path, "local", i];
      checkIdentity(report, [...path, "local"], i, area, names);
      checkShape(report, here, area);
    }
  }
}

function checkIdentity(
  report: Checked["report"],
  path: RecipePath,
  i: number,
  area: Fields,
  seen: Map<string, number>,
): void {
  const id = text(area.id);
  if (id === undefined) return;
  const first = seen.get(id);
  if (first === undefined) seen.set(id, i);
  else
    report(
      "duplicate-area",
      [...path, i, "id"],
      `Another area has the identity ${JSON.stringify(id)} already. Choose another one, or remove it.`,
      { see: { path: [...path, first, "id"], message: "the first area of this identity" } },
    );
}

function checkShape(report: Checked["report"], here: RecipePath, area: Fields): void {
  const given = SHAPES.filter((shape) => area[shape] !== undefined);
  if (given.length !== 1) {
    const how = given.length === 0 ? "has no shape" : `has ${given.length} shapes, ${given.join(" and ")}`;
    report("local-shape", here, `This area ${how}. Give one of line, oval and polygon.`);
    return;
  }
  const [kind] = given;
  if (kind !== "oval" && area.turn !== undefined)
    report("without-effect", [...here, "turn"], `turn has no effect on a ${kind}. Remove it.`, {
      part: "key",
      data: { key: "turn" },
    });
  if (kind === "line" && area.feather !== undefined)
    report("without-effect", [...here, "feather"], "feather has no effect on a line. Remove it.", {
      part: "key",
      data: { key: "feather" },
    });
  const shape = shapeOf(area);
  if (!shape) return;
  if (shape.kind === "line" && shape.from[0] === shape.to[0] && shape.from[1] === shape.to[1])
    report("local-shape", [...here, "line"], "Both points of this line are one. Move one of them.");
  else if (shape.kind === "polygon" && crossesItself(shape.points))
    report(
      "polygon-crosses",
      [...here, "polygon"],
      "Sides of this polygon cross or touch, so it has no inside. Put its corners in order.",
    );
  else if (isOutside(shape))
    report(
      "local-outside",
      [...here, shape.kind],
      "This area lies outside the picture, where it does nothing. Places are fractions of the picture as shown, 0 to 1.",
    );
}

/** The shape, where its numbers are all there. */
function shapeOf(area: Fields): LocalShape | undefined {
  const feather = typeof area.feather === "number" ? area.feather : 0.1;
  const turn = typeof area.turn === "number" ? area.turn : 0;
  const points = (value: Fields[string] | undefined): ShownPoint[] | undefined => {
    const pairs = list(value)?.map(numbers);
    return pairs?.every((pair) => pair?.length === 2) ? pairs.map((pair) => [pair![0]!, pair![1]!]) : undefined;
  };
  const line = points(area.line);
  if (line?.length === 2) return { kind: "line", from: line[0]!, to: line[1]! };
  const oval = numbers(area.oval);
  if (oval?.length === 4) {
    const [x, y, a, b] = oval as [number, number, number, number];
    return a > 0 && b > 0 ? { kind: "oval", centre: [x, y], radii: [a, b], turn, feather } : undefined;
  }
  const polygon = points(area.polygon);
  return polygon && polygon.length > 2 ? { kind: "polygon", points: polygon, feather } : undefined;
}

/** Pictures from the longest upright format to the longest lying one: the recipe does not know the scan's shape. */
const ASPECTS: readonly Aspect[] = [
  [1, 0.33],
  [1, 1],
  [0.33, 1],
];
const STEPS = 16;

/** Whether a shape counts nowhere in the picture, whatever the picture's proportions. */
function isOutside(shape: LocalShape): boolean {
  const inside = ([x, y]: ShownPoint): ShownPoint => [Math.min(1, Math.max(0, x)), Math.min(1, Math.max(0, y))];
  const own = shape.kind === "oval" ? [shape.centre] : shape.kind === "polygon" ? shape.points : [shape.from, shape.to];
  const places = own.map(inside);
  for (let r = 0; r <= STEPS; r++) for (let q = 0; q <= STEPS; q++) places.push([q / STEPS, r / STEPS]);
  return ASPECTS.every((aspect) => {
    const strength = strengthOf(shape, aspect);
    return places.every(([x, y]) => strength(x, y) === 0);
  });
}
