/** The pages of a VSIX, with and without an address for what they lead to. */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import sharp from "sharp";

const root = fileURLToPath(new URL("../../../", import.meta.url));
const { withoutRelativeLinks } = (await import(`${root}extension/packaging/readme.mjs`)) as {
  readonly withoutRelativeLinks: (markdown: string) => string;
};
const readme = readFileSync(`${root}README.md`, "utf8");

describe("pages without an address", () => {
  test("keep the words of links, addresses, places in the page and code", () => {
    const page =
      "See [the guide](docs/guide.md), [here](#below) and [there](https://example.org/a).\n\n```md\n[x](y.md)\n```\n";
    expect(withoutRelativeLinks(page)).toBe(page.replace("[the guide](docs/guide.md)", "the guide"));
  });

  test("lose pictures, and rows and tables that held nothing else", () => {
    const table = "| a | b |\n|---|---|\n| ![A](a.png) | ![B](b.png) |";
    expect(withoutRelativeLinks(`One.\n\n![P](p.png)\n\n${table}\n\nTwo.\n`)).toBe("One.\n\nTwo.\n");
    expect(withoutRelativeLinks("![P](p.png) and words\n")).toBe(" and words\n");
    const words = "| verb | does |\n|---|---|\n| `a` | [b](c.md) |\n";
    expect(withoutRelativeLinks(words)).toBe(words.replace("[b](c.md)", "b"));
  });

  test("of this project lose nothing but those", () => {
    const page = withoutRelativeLinks(readme);
    expect(page).not.toMatch(/\]\((?!https:|#)/);
    const bare = (text: string): string[] => text.match(/^(#+ .*|`?rollbook .*)$/gm) ?? [];
    expect(bare(page)).toEqual(bare(readme));
    expect(page).toContain("| verb | does |");
  });
});

test("the gallery has pictures of a screen's size that exist, with words for those who cannot see them", async () => {
  const pictures = [...readme.matchAll(/!\[([^\]]*)\]\(([^)]+)\)/g)];
  expect(pictures.length).toBeGreaterThanOrEqual(6);
  for (const [, words, path] of pictures) {
    expect([path, existsSync(root + path), words.length > 5]).toEqual([path, true, true]);
    const { width, height, size } = await sharp(readFileSync(root + path)).metadata();
    expect([path, width >= 480 && width <= 1600, height <= 1400]).toEqual([path, true, true]);
    expect([path, (size ?? 0) < 1e6]).toEqual([path, true]);
  }
});
