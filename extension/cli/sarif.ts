/** Problems and findings in SARIF 2.1.0 (OASIS), which code hosts show at the lines of a pull request. */
import type { Log, Result } from "sarif";
import { VERSION } from "../work/files/version.ts";
import { openOutput } from "../work/files/output-file.ts";
import { writeOutput } from "./dry-run.ts";
import { type Call, text } from "./verb.ts";

export const SARIF_OPTION = {
  sarif: { value: "FILE", help: "write the results as SARIF 2.1.0 too, for a code host to show at their lines" },
} as const;

/** One result. Lines and columns count from 1; a result of a whole file has none. */
export interface SarifResult {
  readonly file: string;
  readonly line?: number;
  readonly column?: number;
  readonly endLine?: number;
  readonly endColumn?: number;
  readonly severity: "error" | "warning" | "info";
  readonly code: string;
  readonly message: string;
}

const LEVELS = { error: "error", warning: "warning", info: "note" } as const;

export function sarifLog(results: readonly SarifResult[]): Log {
  const codes = [...new Set(results.map(({ code }) => code))].toSorted();
  return {
    $schema: "https://json.schemastore.org/sarif-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: { driver: { name: "Rollbook", version: VERSION, rules: codes.map((id) => ({ id })) } },
        columnKind: "utf16CodeUnits",
        results: results.map((one): Result => ({
          ruleId: one.code,
          ruleIndex: codes.indexOf(one.code),
          level: LEVELS[one.severity],
          message: { text: one.message },
          locations: [
            {
              physicalLocation: {
                artifactLocation: { uri: encodeURI(one.file.replaceAll("\\", "/")), uriBaseId: "%SRCROOT%" },
                ...(one.line === undefined
                  ? {}
                  : {
                      region: {
                        startLine: one.line,
                        startColumn: one.column,
                        endLine: one.endLine,
                        endColumn: one.endColumn,
                      },
                    }),
              },
            },
          ],
        })),
      },
    ],
  };
}

/** Writes what --sarif asks for; does nothing without it. */
export async function writeSarif(call: Call, results: readonly SarifResult[]): Promise<void> {
  const file = text(call, "sarif");
  if (file === undefined) return;
  // A run's own output, rebuilt each time, under a name that nothing else has.
  const output = openOutput({ file, endings: [".sarif"], overwrite: true });
  await writeOutput(call, output, file, `${JSON.stringify(sarifLog(results), null, 2)}\n`);
}
