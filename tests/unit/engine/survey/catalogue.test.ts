/** The list of findings in docs/findings.md is the list in the code, word for word. */
import { readFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { FINDING_KINDS } from "../../../../extension/engine/survey/catalogue.ts";
import type { FindingKind } from "../../../../extension/engine/survey/types.ts";

const page = new URL("../../../../docs/findings.md", import.meta.url);

const section = (kind: FindingKind): string =>
  [
    `### ${kind.code}`,
    "",
    kind.meaning,
    "",
    `- Limit: ${kind.limit} ${kind.unit}. Source: ${kind.source}.`,
    `- Severity: ${kind.severity}.`,
    `- Likely cause: ${kind.cause}`,
    `- Remedy: ${kind.remedy}`,
  ].join("\n");

describe("docs/findings.md", () => {
  const text = readFileSync(page, "utf8");
  const [head] = text.split("\n### ");
  const wanted = `${head}\n${FINDING_KINDS.map(section).join("\n\n")}\n`;
  // A change of a limit is taken over with UPDATE_DOCS=1.
  if (process.env.UPDATE_DOCS) writeFileSync(page, wanted);

  it("has every finding with its meaning, limit, source, cause and remedy, in order", () => {
    const found = readFileSync(page, "utf8").split("\n### ").slice(1);
    expect(found.map((s) => `### ${s.trimEnd()}`)).toEqual(FINDING_KINDS.map(section));
  });

  it("names each once", () => {
    const codes = FINDING_KINDS.map((k) => k.code);
    expect(new Set(codes).size).toBe(codes.length);
    expect(codes.every((c) => /^[a-z]+(-[a-z]+)*$/.test(c))).toBe(true);
  });

  it("says of every limit where it comes from, and ends its sentences", () => {
    for (const kind of FINDING_KINDS) {
      expect(kind.source).toMatch(/common practice, no source|FADGI/);
      for (const words of [kind.meaning, kind.cause, kind.remedy]) expect(words).toMatch(/[.]$|"\.$/);
    }
  });
});
