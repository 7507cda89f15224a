/** Finding: scans of one roll, or its blank, come from different set-ups. */
import type { ScanInfo } from "../../types.ts";
import { msg, type Message } from "../../messages.ts";
import type { FindingKind, Found } from "../types.ts";
import { at, names, PRACTICE, usual } from "./common.ts";

const ASPECTS: readonly { readonly name: Message; readonly of: (info: ScanInfo) => string | number | undefined }[] = [
  { name: msg("camera"), of: (i) => i.model },
  { name: msg("lens"), of: (i) => i.lens },
  { name: msg("size in pixels"), of: (i) => `${i.width} × ${i.height}` },
  { name: msg("stop"), of: (i) => i.aperture },
];

export const mixedSetup: FindingKind = {
  code: "mixed-setup",
  severity: "warning",
  meaning:
    "Scans of one roll, or its blank, come from different set-ups: blank, base and unmix of one do not hold for the other.",
  limit: 1,
  unit: "set-ups",
  source: PRACTICE,
  cause: "The roll was scanned in several sessions, or files of another roll have come in between.",
  remedy: "Scan the roll again in one session, or split it into a recipe for each set-up with its own blank and base.",
  find({ scans, blank }) {
    const all = [...scans, ...(blank ? [{ name: blank.name, info: blank.info }] : [])];
    return ASPECTS.flatMap(({ name, of }): Found[] => {
      const known = all.filter((s) => of(s.info) !== undefined);
      const values = new Set(known.map((s) => of(s.info)));
      if (values.size <= mixedSetup.limit) return [];
      const usualValue = usual(known.map((s) => of(s.info))) ?? "";
      const off = known.filter((s) => of(s.info) !== usualValue);
      const value = of(off[0].info) ?? "";
      return [
        {
          measured: values.size,
          message:
            off.length === 1
              ? msg("{0} has another {1} ({2}) than the rest ({3}).", names(off), name, value, usualValue)
              : msg("{0} have another {1} ({2}) than the rest ({3}).", names(off), name, value, usualValue),
          place: at(off[0]),
        },
      ];
    });
  },
};
