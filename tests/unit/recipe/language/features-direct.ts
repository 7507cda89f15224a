/** The text features by the functions of recipe/language/ themselves. */
import { formatRecipe } from "../../../../extension/recipe/edit/layout/format.ts";
import { completions } from "../../../../extension/recipe/language/completion/completions.ts";
import { definition } from "../../../../extension/recipe/language/definition.ts";
import { diagnostics } from "../../../../extension/recipe/language/diagnostics.ts";
import { fixAll, fixesOf } from "../../../../extension/recipe/language/fixes.ts";
import { folds } from "../../../../extension/recipe/language/folding.ts";
import { hover } from "../../../../extension/recipe/language/hover.ts";
import { inlays } from "../../../../extension/recipe/language/inlays.ts";
import { frameLenses } from "../../../../extension/recipe/language/lenses.ts";
import { links } from "../../../../extension/recipe/language/links.ts";
import { movable, move } from "../../../../extension/recipe/language/move.ts";
import { rename, renameable } from "../../../../extension/recipe/language/rename.ts";
import { symbols } from "../../../../extension/recipe/language/symbols.ts";
import { english } from "../../../../extension/recipe/language/types.ts";
import type { TextFeatures } from "./features-offered.ts";
import { open } from "./memory.ts";

export const direct: TextFeatures = {
  name: "by the functions themselves",
  async open(roll, others = {}, name = "harbour.roll.yaml") {
    const { reading, workspace, documents, offset } = await open(roll, others, name);
    const { document, problems } = reading;
    return {
      text: document.text,
      files: workspace.files,
      problems: async () => diagnostics(reading, true, () => undefined),
      hover: async () => hover(reading, offset, workspace, english),
      definition: () => definition(reading, offset, workspace, documents),
      links: async () => links(document, workspace),
      symbols: async () => symbols(document),
      folds: async () => folds(document),
      inlays: async (first, last) => inlays(reading, [first, last], english),
      lenses: async () =>
        frameLenses(document, problems)
          .filter((lens) => lens.problems.length > 0)
          .map((lens) => ({ range: lens.range, problems: lens.problems.length })),
      renameable: async () => renameable(document, offset)?.id,
      async rename(to) {
        const made = rename(document, offset, to, english);
        return "problem" in made ? made : made.edits;
      },
      completions: () => completions(document.text, offset, reading, workspace, english),
      async fixes(code) {
        const found = problems.find((one) => one.code === code);
        return (found ? fixesOf(document, found, english) : []).map((fix) => ({ ...fix, edits: fix.edits.edits }));
      },
      fixAll: async () => fixAll(document, problems, english)?.edits,
      async move(target) {
        const what = movable(reading, offset).find((one) => one.target === target);
        return what && move(reading, what, documents, workspace, english);
      },
      formatted: async () => formatRecipe(document.text, { file: document.file }),
    };
  },
};
