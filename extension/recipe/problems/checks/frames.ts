/** Checks frames: their scans, joins and areas. */
import type { RecipePath } from "../../path.ts";
import type { Value } from "../../yaml/values.ts";
import { type Checked, fields, type Fields, list, text } from "./check.ts";

/** Scans, joins and areas of the frames. */
export function checkFrames(checked: Checked): void {
  const owners = new Map<string, { id: string; path: RecipePath; cropped: boolean }>();
  for (const [id, value] of Object.entries(fields(checked.root.frames) ?? {})) {
    const frame = fields(value);
    if (!frame) continue;
    const path = ["frames", id];
    checkScans(checked, frame, path);
    checkArea(checked, frame, path);
    for (const scan of scansOf(frame, path)) {
      const other = owners.get(scan.name);
      const cropped = frame.area !== undefined;
      if (!other) owners.set(scan.name, { id, path: scan.path, cropped });
      else if (other.id === id || !other.cropped || !cropped)
        checked.report(
          "scan-used-twice",
          scan.path,
          `${other.id === id ? "This frame" : `Frame ${other.id}`} uses ${JSON.stringify(scan.name)} already. If the scan shows two frames, give each its own area.`,
          {
            see: { path: other.path, message: "used here first" },
          },
        );
    }
  }
}

function scansOf(frame: Fields, path: RecipePath): { name: string; path: RecipePath }[] {
  const single = text(frame.scan);
  if (single !== undefined) return [{ name: single, path: [...path, "scan"] }];
  const channels = fields(frame.channels) ?? {};
  return [
    ...SEVERAL.flatMap((key) =>
      (list(frame[key]) ?? []).flatMap((value, i) =>
        typeof value === "string" ? [{ name: value, path: [...path, key, i] }] : [],
      ),
    ),
    ...Object.entries(channels).flatMap(([key, value]) =>
      typeof value === "string" ? [{ name: value, path: [...path, "channels", key] }] : [],
    ),
  ];
}

/** Keys that list several scans of a frame. */
const SEVERAL = ["scans", "exposures"] as const;

/** Keys that state a frame's scans, of which it has one. */
const MEANINGS = [
  ["scan", "one scan"],
  ["scans", "several scans that are joined"],
  ["exposures", "several scans that are merged"],
  ["channels", "three scans in three-colour light"],
] as const;

function checkOneKey({ report }: Checked, frame: Fields, path: RecipePath): void {
  const [first, second] = MEANINGS.filter(([key]) => frame[key] !== undefined);
  if (!first || !second) return;
  const message = `A frame comes from one scan (scan), from several that are joined (scans), from several of one picture that are merged (exposures), or from three in three-colour light (channels). Remove ${first[0]} or ${second[0]}.`;
  report("scan-and-scans", [...path, first[0]], message, {
    part: "key",
    data: { key: first[0] },
    see: { path: [...path, second[0]], part: "key", message: second[1] },
  });
}

function checkExposures({ report }: Checked, frame: Fields, path: RecipePath): void {
  if (list(frame.exposures)?.length !== 1) return;
  report(
    "one-exposure",
    [...path, "exposures"],
    "exposures merges several scans of one picture and lists one here. Write scan and its name, or add the others.",
    { part: "key", data: { key: "exposures" } },
  );
}

/** Each light has a blank of its own, and what divides three scans divides no single one. */
function checkLight({ root, report }: Checked, frame: Fields, path: RecipePath): void {
  const own = fields(frame.light)?.blank !== undefined;
  const blank = own ? fields(frame.light)?.blank : fields(root.light)?.blank;
  if (blank === undefined) return;
  const at = own ? [...path, "light", "blank"] : ["light", "blank"];
  const see = { path: at, message: "the bare light" };
  if (frame.channels !== undefined && text(blank) !== undefined)
    report(
      "blank-of-channels",
      [...path, "channels"],
      "light.blank names one scan of the bare light, but each of the three lights of this frame has its own. Write the names of three: blank: { red: …, green: …, blue: … }.",
      { part: "key", see },
    );
  const single = ["scan", ...SEVERAL].find((key) => frame[key] !== undefined);
  if (single !== undefined && frame.channels === undefined && fields(blank))
    report(
      "blank-of-channels",
      [...path, single],
      "light.blank names the bare light of three lights, but this frame was scanned in one light. Name its own blank under the frame’s light, or its three scans under channels.",
      { part: "key", see },
    );
}

function checkScans(checked: Checked, frame: Fields, path: RecipePath): void {
  const { report } = checked;
  const { scan, scans, exposures, channels, join } = frame;
  checkOneKey(checked, frame, path);
  checkLight(checked, frame, path);
  checkExposures(checked, frame, path);
  if ([scan, scans, exposures, channels].every((key) => key === undefined) && frame.skip !== true)
    report(
      "no-scan",
      path,
      `Frame ${path[1]} has no scan. Write scan: and the file's name, or skip: true for a frame without one.`,
      { part: "key", data: { key: "scan" } },
    );
  const places = list(join);
  if (!places) return;
  const count = list(scans)?.length;
  if (count === undefined)
    report(
      "without-effect",
      [...path, "join"],
      "join is for frames with several scans and has no effect here. Remove it, or list the scans under scans.",
      { part: "key", data: { key: "join" } },
    );
  else if (count !== places.length)
    report(
      "join-length",
      [...path, "join"],
      `join has ${places.length} places for ${count} scans. Each scan has one place; the first is [0, 0, 0].`,
      { see: { path: [...path, "scans"], message: `${count} scans` } },
    );
  else checkExposuresOfPlaces(checked, places, path);
}

/** Scans are matched by the exposures that are stated, or each to those before it: a part of them alone has no meaning. */
function checkExposuresOfPlaces({ report }: Checked, places: readonly Value[], path: RecipePath): void {
  const stated = places.map((place) => (list(place)?.length ?? 0) > 3);
  if (!stated.includes(true) || !stated.includes(false)) return;
  report(
    "without-effect",
    [...path, "join", stated.indexOf(true), 3],
    "The exposure of a joined scan has no effect unless every scan of the frame has one: the first has 0. State the others’, or measure the join again.",
  );
}

function checkArea({ report }: Checked, frame: Fields, path: RecipePath): void {
  const area = fields(frame.area);
  if (!area) return;
  for (const [from, size] of [
    ["left", "width"],
    ["top", "height"],
  ] as const) {
    const start = area[from] ?? 0;
    const length = area[size] ?? 1;
    if (typeof start !== "number" || typeof length !== "number" || start + length <= 1 + 1e-9) continue;
    const available = Math.max(0, Number((1 - start).toFixed(6)));
    const key = area[size] === undefined ? from : size;
    const hint = area[size] === undefined ? `State a ${size} of at most ${available}.` : `Write ${available} or less.`;
    const data = key === size && available >= 0.001 ? { maximum: available, nearest: available } : {};
    report(
      "area-outside",
      [...path, "area", key],
      `The area leaves the scan: ${from} ${start} plus ${size} ${length} is more than 1. ${hint}`,
      { data },
    );
  }
}
