/** docs/decisions/dependencies.md names every package of package.json, and no other. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

const read = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), "utf8");

test("every dependency is on the page, with a reason", () => {
  const project = JSON.parse(read("package.json")) as Record<string, Record<string, string>>;
  const stated = ["dependencies", "devDependencies", "optionalDependencies"].flatMap((group) =>
    Object.keys(project[group] ?? {}),
  );
  const [shipped, developing] = read("docs/decisions/dependencies.md").split(/^## /m).slice(1, 3);
  const rows = `${shipped}${developing}`.split("\n").filter((line) => line.startsWith("| `"));
  for (const row of rows)
    expect(
      row
        .split("|")
        .slice(1, -1)
        .every((cell) => cell.trim().length >= 5),
    ).toBe(true);
  const named = rows.flatMap((row) => [...row.split("|")[1].matchAll(/`([^`]+)`/g)].map(([, name]) => name));
  expect(named.toSorted()).toEqual(stated.toSorted());
});
