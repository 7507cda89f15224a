/** What recipes report of scans that a store keeps elsewhere. Forms: see extension/recipe/resolve/pointer.ts. */
import { describe, expect, test } from "vitest";
import { linkPointer, type Pointer, pointerText } from "../../../../extension/recipe/resolve/pointer.ts";
import { loadRoll, type RecipeFiles } from "../../../../extension/recipe/resolve/workspace.ts";

const HASH = "0123456789abcdef".repeat(4);
const roll = `version: 1
scans: scans
light: { blank: LIGHT.dng }
frames:
  "01": { scan: a.dng }
  "02": { scans: [b.dng, c.dng] }
  "03": { scan: d.dng }
`;

/** A folder of scans, some of which are pointers; counts what was asked. */
function around(pointers: Record<string, Pointer>, names: readonly string[]): RecipeFiles & { asked: string[] } {
  const asked: string[] = [];
  return {
    asked,
    read: (path) => Promise.resolve(path === "rolls/h.roll.yaml" ? roll : undefined),
    exists: () => Promise.resolve(true),
    list: () => Promise.resolve(names),
    pointer: (path) => {
      asked.push(path);
      return Promise.resolve(pointers[path.slice(path.lastIndexOf("/") + 1)]);
    },
  };
}

describe("scans that are not fetched", () => {
  test("are warned of at their own text, with the command; missing ones and those that are here are not mixed up", async () => {
    const files = around(
      { "LIGHT.dng": { store: "Git LFS" }, "a.dng": { store: "git-annex" }, "c.dng": { store: "data store" } },
      ["LIGHT.dng", "a.dng", "b.dng", "c.dng", "d.dng.dvc"],
    );
    const { problems, missing } = (await loadRoll("rolls/h.roll.yaml", files))!;
    expect(
      problems.map(({ code, severity, range, message }) => [code, severity, roll.slice(...range), message]),
    ).toEqual([
      [
        "scan-not-fetched",
        "warning",
        "LIGHT.dng",
        "rolls/scans/LIGHT.dng is a Git LFS pointer: the scan itself is not on this computer. Frames that are measured " +
          'against it are skipped until it is fetched. Fetch it first: git lfs pull --include "**/LIGHT.dng".',
      ],
      [
        "scan-not-fetched",
        "warning",
        "a.dng",
        "rolls/scans/a.dng is a git-annex pointer: the scan itself is not on this computer. The frame is skipped until " +
          "it is fetched. Fetch it first: git annex get a.dng, in rolls/scans.",
      ],
      ["scan-not-fetched", "warning", "c.dng", expect.stringContaining("is a link to a file that is not there")],
      ["scan-not-fetched", "warning", "d.dng", expect.stringContaining("dvc pull d.dng, in rolls/scans.")],
    ]);
    expect([...missing]).toEqual(["LIGHT.dng", "a.dng", "c.dng", "d.dng"].map((name) => `rolls/scans/${name}`));
    // What is not in the folder is not opened to find out.
    expect(files.asked).not.toContain("rolls/scans/d.dng");
  });

  test("are no concern where nobody looks for pointers", async () => {
    const files = { ...around({}, ["LIGHT.dng", "a.dng", "b.dng", "c.dng", "d.dng"]), pointer: undefined };
    expect((await loadRoll("rolls/h.roll.yaml", files))!.problems).toEqual([]);
  });
});

describe("the command that fetches a scan", () => {
  const command = (path: string, store: Pointer["store"]) => pointerText(path, { store }).command;

  test("quotes a name that a shell would carry out", () => {
    expect(command("scans/a b.dng", "git-annex")).toBe("git annex get 'a b.dng', in scans");
    expect(command("scans/$(rm -rf ~).dng", "dvc")).toBe("dvc pull '$(rm -rf ~).dng', in scans");
    expect(command("it's;x.dng", "Git LFS")).toBe("git lfs pull --include '**/it'\\''s;x.dng'");
    expect(command("-x.dng", "git-annex")).toBe("git annex get '-x.dng'");
  });

  test("follows from where a link leads", () => {
    expect(linkPointer(`../.git/annex/objects/Xx/1W/SHA256E-s12--${HASH}.dng/SHA256E-s12--${HASH}.dng`)).toEqual({
      store: "git-annex",
      size: 12,
      sha256: HASH,
    });
    expect(linkPointer("..\\.git\\annex\\objects\\WORM-s14-m1--gone.dng")).toEqual({ store: "git-annex" });
    expect(linkPointer("/mnt/cache/ab/cdef")).toEqual({ store: "data store" });
  });
});
