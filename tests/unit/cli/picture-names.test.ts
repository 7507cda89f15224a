/** Pictures that are named by the recipe's own pattern: rendered, resumed, planned, and kept from another roll's. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { makeRoll } from "../../bench/synthetic-roll.ts";
import { asJson, fingerprints, rollbook } from "./command.ts";

let folder = "";
let recipe = "";
const out = (): string => join(folder, "out");
const render = (...args: string[]) => rollbook(["render", recipe, "-o", out(), ...args]);
const retitled = (file: string, from: string, to: string): void =>
  writeFileSync(file, readFileSync(file, "utf8").replace(from, to));

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "names-"));
  const output =
    '  - { name: web, type: jpeg, file: "{frame} {title}", long: 64 }\n  - { name: kept, type: png, long: 64 }';
  recipe = makeRoll(folder, "harbour", { width: 192, height: 128, frames: 2, output });
  retitled(recipe, "title: Picture 02", 'title: "Quay: 5/6?"');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("names by a pattern", () => {
  test("are written, and the same in a dry run and on resuming", { timeout: 300_000 }, async () => {
    const planned = (await render("--dry-run")).out.match(/^Would write .*\.$/gm);
    expect(planned).toEqual([
      "Would write web/01 Picture 01.jpg.",
      "Would write kept/harbour-01.png.",
      "Would write web/02 Quay- 5-6.jpg.",
      "Would write kept/harbour-02.png.",
    ]);
    expect((await render()).out).toBe("4 pictures written.\n");
    expect(readdirSync(join(out(), "web")).toSorted()).toEqual(["01 Picture 01.jpg", "02 Quay- 5-6.jpg"]);
    const before = fingerprints(out());
    expect((await render("--resume")).out).toBe("0 pictures written, 4 kept.\n");
    expect(fingerprints(out())).toEqual(before);
    expect((await render("--dry-run")).out).toContain("Would replace web/01 Picture 01.jpg.");
  });

  test(
    "change with the title, and the picture is the same byte for byte but for its title",
    { timeout: 300_000 },
    async () => {
      retitled(recipe, "title: Picture 01", "title: Pier");
      const { json } = await asJson<{ frames: { pictures: { file: string; status: string }[] }[] }>([
        "render",
        recipe,
        "-o",
        out(),
        "--frames",
        "01",
      ]);
      expect(json.frames[0].pictures.map(({ file }) => file)).toEqual(["web/01 Pier.jpg", "kept/harbour-01.png"]);
      // The earlier picture is left for its owner to remove.
      expect(readdirSync(join(out(), "web"))).toContain("01 Picture 01.jpg");
      // A name changes nothing in a picture.
      const named = readFileSync(join(out(), "web/01 Pier.jpg"));
      retitled(recipe, 'file: "{frame} {title}"', 'file: "{scan}"');
      expect((await render("--frames", "01", "--output", "web")).out).toBe("1 picture written.\n");
      expect(readFileSync(join(out(), "web/F01.jpg")).equals(named)).toBe(true);
    },
  );

  test("never replace another roll's pictures", { timeout: 300_000 }, async () => {
    const other = join(folder, "quay.roll.yaml");
    writeFileSync(other, readFileSync(recipe, "utf8"));
    const ran = await rollbook(["render", other, "-o", out(), "--frames", "01", "--output", "web"]);
    expect([ran.code, ran.err]).toEqual([1, expect.stringMatching(/F01\.jpg/) as string]);
  });

  test("that two frames would share stop the roll before anything is written", async () => {
    retitled(recipe, 'file: "{scan}"', 'file: "{roll}"');
    const before = fingerprints(out());
    const ran = await render();
    expect(ran.code).toBe(1);
    expect(ran.err).toContain("Frames 01 and 02 would both be written to web/harbour.jpg.");
    expect(fingerprints(out())).toEqual(before);
  });
});
