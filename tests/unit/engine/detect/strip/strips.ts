/** Scans of the witness's strips, with the truth about each picture. */
import type { Area } from "../../../../../extension/engine/types.ts";
import { photographFilm } from "../../../../witness/camera/camera.ts";
import { projection } from "../../../../witness/camera/project.ts";
import { metered, type Placement } from "../../../../witness/camera/setup.ts";
import type { Strip } from "../../../../witness/film/strip.ts";
import { lightOf, linearOf, STAND, type Stand } from "../scans.ts";
import type { StripCase } from "./cases.ts";

/** A strip, photographed; areas of its pictures in fractions of the scan, in order. */
export function shootStrip(strip: Strip, stand: Stand, placement: Placement, seed: number) {
  const { film } = strip;
  const exposure = metered(stand.camera, stand.light, stand.setup, film.stock);
  const made = photographFilm({ ...stand, ...stand.size, film, exposure, placement }, seed);
  return {
    made,
    scan: linearOf(made),
    light: lightOf(stand, exposure),
    exposure,
    areas: areasOf(strip, placement, stand.size),
  };
}

/** A case's scan; a scan that stands upright shows the strip from top to bottom. */
export function shootCase({ strip, seed, stand, placement }: StripCase) {
  const all: Stand = { ...STAND, ...stand };
  const upright = all.size.height > all.size.width && placement.width > 1;
  const lie = { centre: [0.5, 0.5] as const, tilt: 0, mirrored: false, ...placement };
  return shootStrip(strip(seed), all, { ...lie, tilt: lie.tilt + (upright ? 90 : 0) }, seed);
}

/** Where a placement puts each picture: with a tilt within ± 45°, as recipes state it. */
export function areasOf({ film, pictures }: Strip, placement: Placement, { width, height }: Stand["size"]): Area[] {
  const onFilm = projection(film, placement, width, height);
  const upright = placement.tilt > 45;
  return pictures.map((box) => {
    const [x, y] = onFilm.toScan(box.left + box.width / 2, box.top + box.height / 2);
    const sides = [box.width / onFilm.ratio, box.height / onFilm.ratio];
    const [wide, high] = upright ? sides.toReversed() : sides;
    return {
      left: (x - wide / 2) / width,
      top: (y - high / 2) / height,
      width: wide / width,
      height: high / height,
      tilt: placement.tilt - (upright ? 90 : 0),
    };
  });
}
