/** Names of pictures' files. What Windows keeps for itself: "Naming Files, Paths, and Namespaces" of its documentation. */
import { describe, expect, test } from "vitest";
import fc from "../../../properties.ts";
import { parseRecipe } from "../../../../extension/recipe/problems/document.ts";
import { pictureFile, recipeStem, sharedNames } from "../../../../extension/recipe/resolve/picture-name.ts";
import { resolveRoll } from "../../../../extension/recipe/resolve/resolve.ts";
import { loadRoll } from "../../../../extension/recipe/resolve/workspace.ts";

const name = (file: string | undefined, title?: string, id = "12A", scan = "sub/H0013.dng"): string =>
  pictureFile(
    { file: "rolls/harbour.roll.yaml" },
    { id, title, scans: [{ name: scan, path: `rolls/${scan}` }] },
    { name: "web", type: "jpeg", file },
  );

describe("a picture's file", () => {
  test("has the usual name without a pattern", () => {
    expect(name(undefined, "The quay")).toBe("web/harbour-12A.jpg");
    expect(recipeStem("C:\\rolls\\a.b.roll.yml")).toBe("a.b");
  });

  test("is put together of what the pattern names", () => {
    expect(name("{roll}-{frame}-{title}", "The quay")).toBe("web/harbour-12A-The quay.jpg");
    expect(name("{scan} {output}_{frame}{frame}")).toBe("web/H0013 web_12A12A.jpg");
    expect(name("Ä é {frame}")).toBe("web/Ä é 12A.jpg");
  });

  test("leaves out a title that there is not, with what joins it", () => {
    expect(name("{roll}-{frame}-{title}")).toBe("web/harbour-12A.jpg");
    expect(name("{title}-{frame}")).toBe("web/12A.jpg");
    expect(name("{frame} ({title})")).toBe("web/12A.jpg");
    expect(name("{frame}_{title}_{roll}")).toBe("web/12A_harbour.jpg");
    expect(name("{title}", "?:*")).toBe("web/12A.jpg");
    expect(name("_{frame}")).toBe("web/_12A.jpg");
  });

  test("never is a path, a hidden file or a device", () => {
    expect(name("{title}", "../../etc/passwd")).toBe("web/etc-passwd.jpg");
    expect(name("{title}", "C:\\temp\\x")).toBe("web/C-temp-x.jpg");
    expect(name("{title}", "con")).toBe("web/_con.jpg");
    expect(name("{title}", "two\nlines \u0007")).toBe("web/two-lines.jpg");
    expect(name("{title}", "ends in a dot. ")).toBe("web/ends in a dot.jpg");
  });

  test("stays short enough for a file system, and whole characters stay whole", () => {
    const long = name("{roll}-{frame}-{title}", "海".repeat(200)).slice("web/".length);
    expect(Buffer.byteLength(long)).toBeLessThan(200);
    expect(long).toBe(`harbour-12A-${"海".repeat(40)}.jpg`);
  });

  test("is one name in one folder, whatever the title", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "grapheme", maxLength: 200 }),
        fc.constantFrom("{title}", "{frame}-{title}"),
        (title, pattern) => {
          const file = name(pattern, title);
          // eslint-disable-next-line no-control-regex
          expect(file).toMatch(/^web\/[^\\/:*?"<>|\u0000-\u001f]+\.jpg$/);
          expect(file).not.toMatch(/^web\/[. ]|[. ]\.jpg$|^web\/(con|prn|aux|nul|com\d|lpt\d)\./i);
          expect(file.normalize("NFC")).toBe(file);
          expect(Buffer.byteLength(file)).toBeLessThan(200);
        },
      ),
    );
  });
});

describe("two pictures of one name", () => {
  const frames = `frames:
  "01": { scan: a.dng, title: The quay }
  "02": { scan: b.dng, title: the  QUAY }
  "03": { scan: c.dng, title: The quay, skip: true }
`;
  const roll = (outputs: string): string => `version: 1\n${outputs}${frames}`;
  const output = (file: string): string =>
    `output:\n  - { name: a, type: png }\n  - { name: b, type: png, file: "${file}" }\n`;
  const load = async (text: string, stock?: string) =>
    (await loadRoll("h.roll.yaml", {
      roots: [""],
      read: (path) => Promise.resolve(path === "h.roll.yaml" ? text : stock),
      exists: () => Promise.resolve(true),
      list: () => Promise.resolve(["a.dng", "b.dng", "c.dng"]),
    }))!;

  test("are an error at the pattern, capitals and blanks apart, skipped frames left out", async () => {
    const text = roll(output("{title}"));
    const { problems } = await load(text);
    expect(
      problems.map(({ code, severity, range, message }) => [code, severity, text.slice(...range), message]),
    ).toEqual([
      [
        "same-file-name",
        "error",
        '"{title}"',
        "Frames 01 and 02 would both be written to b/the QUAY.png. Put {frame} into the pattern.",
      ],
    ]);
    for (const good of ["{frame}", "{title}-{frame}", "{scan}"])
      expect((await load(roll(output(good)))).problems).toEqual([]);
  });

  test("are told at the stock where its pattern is to blame", async () => {
    const text = `version: 1\nstock: n.stock.yaml\n${frames}`;
    const { problems } = await load(text, `version: 1\n${output("{roll}")}`);
    expect(problems.map(({ code, range }) => [code, text.slice(...range)])).toEqual([
      ["same-file-name", "n.stock.yaml"],
    ]);
    expect(problems[0].message).toContain("which the stock states");
  });

  test("are found where parts run into each other", async () => {
    const text = `version: 1\noutput:\n  - { name: b, type: png, file: "{frame}{title}" }\nframes:\n  "1": { scan: a.dng, title: 2x }\n  "12": { scan: b.dng, title: x }\n`;
    expect((await load(text)).problems[0].message).toContain("Put a character such as - around {frame}");
    const found = sharedNames(resolveRoll(parseRecipe(text, { file: "h.roll.yaml" })));
    expect(found.map(({ frames: both, file }) => [both, file])).toEqual([[["1", "12"], "b/12x.png"]]);
  });
});
