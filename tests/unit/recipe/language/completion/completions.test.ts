import { describe, expect, it } from "vitest";
import { placeholders } from "../../../../../extension/recipe/language/completion/complete-keys.ts";
import { completions } from "../../../../../extension/recipe/language/completion/completions.ts";
import { english } from "../../../../../extension/recipe/language/types.ts";
import { browserBuild } from "../features-browser.ts";
import { direct } from "../features-direct.ts";
import { covered, marked, open } from "../memory.ts";
import { files, roll } from "../recipes.ts";

describe.each([direct, browserBuild])("completions $name", (features) => {
  const proposals = async (source: string, name?: string) => (await features.open(source, files, name)).completions();
  const labels = async (source: string, name?: string) => (await proposals(source, name)).map(({ label }) => label);

  describe("of a printer's profile", () => {
    const shelf = {
      ...files,
      "profiles/matte.icc": "",
      "profiles/Gloss paper.ICM": "",
      "profiles/notes.txt": "",
      "profiles/old/press.icc": "",
    };
    const at = async (path: string) => {
      const text = roll.replace("frames:", `output:\n  - name: wall\n    print:\n      profile: ${path}\nframes:`);
      return (await (await features.open(text, shelf)).completions()).map(({ label, kind, snippet }) => [
        label,
        kind,
        snippet,
      ]);
    };

    it("are the profiles and folders of the workspace, from the recipe's own folder on", async () => {
      const folder = (name: string) => [`${name}/`, "folder", name];
      expect(await at("|")).toEqual([folder("profiles"), folder("scans"), folder("stocks")]);
      expect(await at("profiles/|")).toEqual([
        ["Gloss paper.ICM", "file", "profiles/Gloss paper.ICM"],
        ["matte.icc", "file", "profiles/matte.icc"],
        ["old/", "folder", "profiles/old"],
      ]);
      expect(await at("profiles/old/|")).toEqual([["press.icc", "file", "profiles/old/press.icc"]]);
    });

    it("are none outside of the workspace", async () => expect(await at("../../|")).toEqual([]));
  });

  describe("keys", () => {
    it("are those of the schema at the caret, without those that are there, in canonical order", async () => {
      expect(await labels("version: 1\n|\nscans: scans\n")).toEqual([
        "title",
        "stock",
        "film",
        "format",
        "exposed",
        "iptc",
        "light",
        "negative",
        "positive",
        "output",
        "frames",
        "note",
        "fingerprints",
        "automatic",
      ]);
      expect(await labels("version: 1\npositive:\n  toe: 0.3\n  |\n")).not.toContain("toe");
      expect(await labels("version: 1\n|", "x.stock.yaml")).toContain("iso");
    });

    it("come with documentation, and a place for the value", async () => {
      const found = (await proposals("version: 1\npositive:\n  |")).find(({ label }) => label === "contrast")!;
      expect(found).toMatchObject({ kind: "key", detail: "slope at mid-grey", snippet: "contrast: ${1:1.35}" });
      expect(found.documentation).toContain("Range: 0.2 to 5");
    });

    it("are laid out as the canonical format lays them out", async () => {
      const snippet = async (source: string, label: string) =>
        (await proposals(source)).find((one) => one.label === label)?.snippet;
      expect(await snippet("version: 1\n|", "positive")).toBe("positive:\n  $0");
      expect(await snippet('frames:\n  "01":\n    |', "area")).toMatch(/^area: \{ left: \$\{1:[\d.]+\}, top: /);
      expect(await snippet("negative:\n  |", "gamma")).toBe("gamma: [${1:0.53}, ${2:0.56}, ${3:0.63}]");
      expect(await snippet("version: 1\n|", "film")).toBe("film: $0");
      expect(await snippet("negative: { |", "base")).not.toContain("\n");
      expect(await snippet("version: 1\n|", "fingerprints")).toMatch(
        /^fingerprints:\n {2}H0001\.dng:\n {4}size: \$\{1:\d+\}\n {4}sha256: \$\{2:[0-9a-f]{64}\}$/,
      );
      expect(await labels("version: 1\nfingerprints: |\n")).toEqual([]);
    });

    it("leave the colon alone that is there", async () => {
      const { text, offset } = marked("version: 1\nti|: Harbour\n");
      const [first] = await proposals("version: 1\nti|: Harbour\n");
      expect(first).toMatchObject({ label: "title", snippet: "title" });
      expect(covered(text, first!.range)).toBe("ti");
      expect(offset).toBe(13);
    });

    it("work inside brackets that are not closed yet", async () => {
      expect(await labels('frames:\n  "01":\n    area: { left: 0.1, |\n  "02":\n    scan: H0002.dng\n')).toEqual([
        "top",
        "width",
        "height",
        "tilt",
      ]);
    });
  });

  describe("frames", () => {
    it("go on with the next id and the next scan that no frame uses", async () => {
      const source = `${roll}  |\n`;
      const [frame] = await proposals(source);
      expect(frame).toMatchObject({ label: '"04"', kind: "frame", detail: "H0004.dng" });
      expect(frame!.snippet).toBe('"${1:04}":\n  scan: ${2:H0004.dng}$0');
    });
  });

  describe("values", () => {
    it("are the allowed words, quoted where YAML would read a number", async () => {
      expect(await labels("film: |")).toEqual(["colour-negative", "black-and-white-negative", "slide"]);
      expect(await labels("format: |")).toContain('"135"');
      expect(await labels('frames:\n  "01":\n    mirror: |')).toEqual(["true", "false"]);
      expect(await labels('frames:\n  "01":\n    turn: |')).toEqual(["0", "90", "180", "270"]);
      expect(await labels('frames:\n  "01":\n    choice: |')).toEqual(["keep", "reject"]);
      expect(await labels('frames:\n  "01":\n    rank: |')).toEqual(["1", "2", "3", "4", "5"]);
      expect(await labels("output:\n  - { name: web, type: |")).toEqual(["tiff", "jpeg", "png", "webp", "avif"]);
    });

    it("get the blank that YAML wants behind a colon", async () => {
      const [first] = await proposals("film:|");
      expect(first?.snippet).toBe(" colour-negative");
    });

    it("name what would be inherited, and the default", async () => {
      const found = await proposals(roll.replace("contrast: 1.7", "contrast: |"));
      expect(found.map(({ label, detail }) => [label, detail])).toContainEqual(["1.5", "inherited"]);
      expect(found.map(({ label, detail }) => [label, detail])).toContainEqual(["1.35", "default"]);
    });

    it("keep the quotes and brackets of a pattern, and a snippet takes none of them for its own", async () => {
      const found = await proposals("version: 1\noutput:\n  - { name: web, type: jpeg, file: |");
      expect(found.map(({ label, detail, snippet }) => [label, detail, snippet])).toEqual([
        ['"{roll}-{frame}"', "default", '"{roll\\}-{frame\\}"'],
        ['"{roll}-{frame}-{title}"', "example", '"{roll\\}-{frame\\}-{title\\}"'],
      ]);
    });

    it("are the stocks of the workspace, by their path from here", async () => {
      expect(await labels("version: 1\nstock: |\n", "rolls/x.roll.yaml")).toEqual([
        "../stocks/northlight-400.stock.yaml",
      ]);
    });

    it("are the scans, those first that no frame uses", async () => {
      const found = (await proposals(roll.replace("scan: H0003.dng", "scan: |"))).toSorted((a, b) =>
        a.sort < b.sort ? -1 : 1,
      );
      expect(found[0]).toMatchObject({ label: "H0003.dng" });
      expect(found.find(({ label }) => label === "H0001.dng")?.detail).toBe("in frame 01");
      expect(await labels(roll.replace("blank: LIGHT.dng", "blank: |"))).toContain("LIGHT.dng");
    });

    it("are folders for the folder of scans, and nothing outside the workspace", async () => {
      expect(await labels("version: 1\nscans: |\n")).toEqual(["scans/", "stocks/"]);
      expect(await labels("version: 1\nscans: ../|\n")).toEqual([]);
    });
  });
});

describe("examples as snippets", () => {
  it("stop at each value", () => {
    expect(placeholders("[0.31, 0.60, 0.76]")).toBe("[${1:0.31}, ${2:0.60}, ${3:0.76}]");
    expect(placeholders("{ camera: folding 35, rated: 400 }")).toBe("{ camera: ${1:folding 35}, rated: ${2:400} \\}");
    expect(placeholders("[[0.412, 0.118, 0.0021]]")).toBe("[[${1:0.412}, ${2:0.118}, ${3:0.0021}]]");
  });
});

describe("a text that has run ahead of its parse", () => {
  it("is completed by what stands there now", async () => {
    const { reading, workspace } = await open(roll, files);
    const { text, offset } = marked(`${roll}  "04":\n    sc|`);
    const found = await completions(text, offset, reading, workspace, english);
    const scan = found.find(({ label }) => label === "scan")!;
    expect(covered(text, scan.range)).toBe("sc");
  });
});
