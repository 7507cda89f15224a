import { describe, expect, test } from "vitest";
import { loadRoll, type RecipeFiles } from "../../../../extension/recipe/resolve/workspace.ts";

/** Files by path, in memory; an empty text for scans. Counts how often folders are listed. */
function memory(files: Record<string, string>): RecipeFiles & { lists: string[] } {
  const lists: string[] = [];
  return {
    lists,
    roots: [""],
    read: (path) => Promise.resolve(files[path]),
    exists: (path) => Promise.resolve(path in files),
    list: (folder) => {
      lists.push(folder);
      const prefix = folder === "" ? "" : `${folder}/`;
      const names = Object.keys(files)
        .filter((path) => path.startsWith(prefix))
        .map((path) => path.slice(prefix.length));
      return Promise.resolve(names.length > 0 ? names : undefined);
    },
  };
}

const roll = `version: 1
stock: ../stocks/n.stock.yaml
scans: scans
light: { blank: LIGHT.dng }
negative: { base: { density: [0.8, 0.6, 0.3] } }
frames:
  "01": { scan: a.dng }
  "02": { scans: [b.dng, c.dng] }
  "03": { scan: ../../outside.dng }
`;
const good = {
  "harbour/h.roll.yaml": roll.replace(/ {2}"03".*\n/, ""),
  "stocks/n.stock.yaml": "version: 1\nfilm: black-and-white-negative\n",
  "harbour/scans/LIGHT.dng": "",
  "harbour/scans/a.dng": "",
  "harbour/scans/b.dng": "",
  "harbour/scans/c.dng": "",
};
const without = (name: string) => Object.fromEntries(Object.entries(good).filter(([path]) => path !== name));
const shown = async (files: Record<string, string>) => {
  const loaded = (await loadRoll("harbour/h.roll.yaml", memory(files)))!;
  return loaded.problems.map(({ code, range }) => `${code} ${loaded.roll.text.slice(...range)}`);
};

describe("a roll with its files", () => {
  test("everything there: no problem, and folders are listed once", async () => {
    const files = memory(good);
    const loaded = (await loadRoll("harbour/h.roll.yaml", files))!;
    expect(loaded.problems).toEqual([]);
    expect(loaded.stock?.file).toBe("stocks/n.stock.yaml");
    expect(loaded.resolved?.film).toBe("black-and-white-negative");
    expect(files.lists).toEqual(["harbour/scans"]);
  });

  test("no such roll", async () => {
    expect(await loadRoll("nowhere.roll.yaml", memory(good))).toBeUndefined();
  });

  test("missing scans are warned of at their names", async () => {
    expect(await shown(without("harbour/scans/a.dng"))).toEqual(["missing-scan a.dng"]);
    expect(await shown(without("harbour/scans/c.dng"))).toEqual(["missing-scan c.dng"]);
    expect(await shown(without("harbour/scans/LIGHT.dng"))).toEqual(["missing-scan LIGHT.dng"]);
    const { missing } = (await loadRoll("harbour/h.roll.yaml", memory(without("harbour/scans/a.dng"))))!;
    expect([...missing]).toEqual(["harbour/scans/a.dng"]);
  });

  test("a missing exposure is warned of, and that the frame is made of the others", async () => {
    const three = {
      ...good,
      "harbour/h.roll.yaml": good["harbour/h.roll.yaml"].replace("scans: [b.dng", "exposures: [a2.dng, b.dng"),
    };
    const loaded = (await loadRoll("harbour/h.roll.yaml", memory(three)))!;
    expect(
      loaded.problems.map(({ code, severity, path, message }) => [code, severity, path.join("."), message]),
    ).toEqual([
      [
        "missing-scan",
        "warning",
        "frames.02.exposures.0",
        "There is no harbour/scans/a2.dng. The frame is merged from its other scans until it is there; check the name, or the folder under scans.",
      ],
    ]);
    expect(loaded.resolved!.frames[1]).toMatchObject({ merged: true });
  });

  test("a missing colour, and a missing blank of three, are warned of at their names", async () => {
    const three = {
      ...good,
      "harbour/h.roll.yaml": good["harbour/h.roll.yaml"]
        .replace(/scans: \[b\.dng[^\]]*\]/, "channels: { red: r.dng, green: b.dng, blue: a2.dng }")
        .replace("blank: LIGHT.dng", "blank: { red: L1.dng, green: LIGHT.dng, blue: L3.dng }"),
      "harbour/scans/r.dng": "",
      "harbour/scans/L3.dng": "",
    };
    const loaded = (await loadRoll("harbour/h.roll.yaml", memory(three)))!;
    const missing = loaded.problems.filter(({ code }) => code === "missing-scan");
    expect(missing.map(({ path, message }) => [path.join("."), message.split(";")[0]])).toEqual([
      [
        "light.blank.red",
        "There is no harbour/scans/L1.dng. Frames that are measured against it are skipped until it is there",
      ],
      [
        "frames.02.channels.blue",
        "There is no harbour/scans/a2.dng. Two colours are no picture: the frame is skipped until it is there",
      ],
    ]);
    const [, frame] = loaded.resolved!.frames;
    expect(frame).toMatchObject({ merged: true, channels: true });
    expect(frame!.scans.map(({ name }) => name)).toEqual(["b.dng", "r.dng", "a2.dng"]);
    expect(frame!.light.blanks?.map(({ name }) => name)).toEqual(["LIGHT.dng", "L1.dng", "L3.dng"]);
  });

  test("a missing stock is an error at its path", async () => {
    expect(await shown(without("stocks/n.stock.yaml"))).toEqual(["missing-stock ../stocks/n.stock.yaml"]);
  });

  test("a broken stock is an error at its path, and leads to what is wrong", async () => {
    const text = "version: 1\npositive: { contrast: 99, toe: 0.1 }\nfilm: slide\n";
    const loaded = (await loadRoll("harbour/h.roll.yaml", memory({ ...good, "stocks/n.stock.yaml": text })))!;
    expect(loaded.problems.map((p) => p.code)).toEqual(["broken-stock"]);
    const related = loaded.problems[0]!.related!;
    expect(related.map(({ file, range }) => [file, text.slice(...range)])).toEqual([["stocks/n.stock.yaml", "99"]]);
    expect(loaded.resolved?.shared.look.tone).toMatchObject({ contrast: 1, toe: 0.1 });
  });

  test("a roll is no stock", async () => {
    const files = {
      ...good,
      "harbour/h.roll.yaml": roll.replace("../stocks/n.stock.yaml", "other.roll.yaml").replace(/ {2}"03".*\n/, ""),
      "harbour/other.roll.yaml": "version: 1",
    };
    expect(await shown(files)).toContain("not-a-stock other.roll.yaml");
  });

  test("an unsafe path is never followed", async () => {
    const files = memory({ ...good, "harbour/h.roll.yaml": roll, "outside.dng": "" });
    const loaded = (await loadRoll("harbour/h.roll.yaml", files))!;
    expect(loaded.problems.map((p) => p.code)).toEqual([]);
    const escaping = memory({ ...good, "harbour/h.roll.yaml": roll.replace("../../outside", "../../../outside") });
    const refused = (await loadRoll("harbour/h.roll.yaml", escaping))!;
    expect(refused.problems.map((p) => p.code)).toEqual(["unsafe-path"]);
    expect(refused.resolved!.frames[2]!.scans).toEqual([]);
    expect(escaping.lists).toEqual(["harbour/scans"]);
  });

  test("the stock decides whether a base is unusual", async () => {
    expect(await shown({ ...good, "stocks/n.stock.yaml": "version: 1\n" })).toEqual([
      "base-implausible [0.8, 0.6, 0.3]",
    ]);
  });
});
