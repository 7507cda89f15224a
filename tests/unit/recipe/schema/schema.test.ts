import Ajv from "ajv";
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { keyTable } from "../../../../extension/recipe/generated/describe.ts";
import { roll, stock } from "../../../../extension/recipe/generated/validate.js";

const root = new URL("../../../../", import.meta.url);
const read = (path: string) => readFileSync(new URL(path, root), "utf8");
const schemaOf = (kind: string) => JSON.parse(read(`schemas/${kind}.schema.json`)) as Record<string, unknown>;
type Node = Record<string, unknown>;
const kindOf = (name: string) => (name.includes(".stock.") ? "stock" : "roll");

describe("the whole schemas", () => {
  test("everything generated is up to date", () => {
    expect(() =>
      execFileSync(process.execPath, [fileURLToPath(new URL("schemas/generate.mjs", root)), "--check"], {
        stdio: "pipe",
      }),
    ).not.toThrow();
  });

  test.each(["roll", "stock"])(
    "%s is a draft-07 schema by itself, closed everywhere, with a description for every key",
    (kind) => {
      const schema = schemaOf(kind);
      expect(schema.$schema).toBe("http://json-schema.org/draft-07/schema#");
      expect(new Ajv({ allowUnionTypes: true }).validateSchema(schema)).toBe(true);
      const definitions = schema.definitions as Record<string, Node>;
      const faults: string[] = [];
      const follow = (node: Node) =>
        typeof node.$ref === "string" ? definitions[node.$ref.replace("#/definitions/", "")] : node;
      const visit = (node: Node, path: string) => {
        if (node.type === "object" && !("additionalProperties" in node)) faults.push(`${path} is open`);
        for (const [key, child] of Object.entries((node.properties ?? {}) as Record<string, Node>)) {
          const target = follow(child);
          if (!target) faults.push(`${path}.${key} leads nowhere`);
          else if (typeof target.description !== "string") faults.push(`${path}.${key} is not described`);
          else if (!child.$ref) visit(child, `${path}.${key}`);
        }
      };
      for (const [name, definition] of Object.entries({ ...definitions, "": schema })) visit(definition, name);
      expect(faults).toEqual([]);
      expect(Object.keys(definitions).length).toBeGreaterThan(10);
    },
  );

  test("they agree with the standalone validators on every recipe of the corpus", () => {
    const whole = {
      roll: new Ajv({ allErrors: true, allowUnionTypes: true }).compile(schemaOf("roll")),
      stock: new Ajv({ allErrors: true, allowUnionTypes: true }).compile(schemaOf("stock")),
    };
    const own = { roll, stock };
    let wrong = 0;
    for (const folder of ["valid", "invalid"]) {
      for (const name of readdirSync(new URL(`tests/corpus/${folder}/`, root)).filter((file) =>
        file.endsWith(".yaml"),
      )) {
        let value: unknown;
        try {
          value = parse(read(`tests/corpus/${folder}/${name}`), {
            schema: "core",
            uniqueKeys: false,
            logLevel: "error",
          });
        } catch {
          continue;
        }
        const kind = kindOf(name);
        const expected = whole[kind](value);
        expect(own[kind](value)).toBe(expected);
        expect(own[kind].errors?.map((e) => e.instancePath + e.keyword).toSorted()).toEqual(
          whole[kind].errors?.map((e) => e.instancePath + e.keyword).toSorted(),
        );
        if (!expected) wrong++;
      }
    }
    expect(wrong).toBeGreaterThan(10);
  });
});

test("every default and every example of the key table keeps the schema", () => {
  const wrap = (path: string[], value: unknown): unknown => {
    const [first, ...rest] = path;
    if (first === undefined) return value;
    return /^\d+$/.test(first) ? undefined : { [first === "*" ? "12A" : first]: wrap(rest, value) };
  };
  let checked = 0;
  for (const kind of ["roll", "stock"] as const) {
    for (const [path, about] of Object.entries(keyTable[kind])) {
      const parts = path === "" ? [] : path.split(".");
      if (
        parts.length === 0 ||
        parts[0] === "output" ||
        /\d/.test(path) ||
        path.includes("spots.*") ||
        path.includes("local.*") ||
        path.includes("fingerprints.*.") ||
        parts.at(-1) === "*"
      )
        continue;
      const values = [
        ...(about.default === undefined ? [] : [about.default]),
        ...(about.examples ?? []).map((e) => (typeof e === "string" ? (parse(e) as unknown) : e)),
      ];
      for (const value of values) {
        const recipe = { version: 1, ...(wrap(parts, value) as object) };
        const validate = kind === "roll" ? roll : stock;
        validate(recipe);
        const errors = (validate.errors ?? []).filter((e) => e.keyword !== "required");
        expect({ path, value, errors }).toEqual({ path, value, errors: [] });
        checked++;
      }
    }
  }
  expect(checked).toBeGreaterThan(80);
});
