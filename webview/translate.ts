/**
 * Words in the language of the editor. The host hands over the extension's translated bundle; what it does not hold
 * stays English. `word` takes its text as a literal: extension/editor/l10n/extract.mjs collects them for translators.
 */
let translated: (english: string) => string | undefined = () => undefined;

/** To be called before anything is shown. */
export function useTranslations(lookUp: (english: string) => string | undefined): void {
  translated = lookUp;
}

/** Takes the bundle from where the host has put it into the page: `data-words` of the page's root, as JSON. */
export function useTranslationsOf(root: HTMLElement): void {
  const bundle = JSON.parse(root.dataset["words"] ?? "{}") as Readonly<Record<string, unknown>>;
  useTranslations((english) => {
    const found = Object.hasOwn(bundle, english) ? bundle[english] : undefined;
    return typeof found === "string" ? found : undefined;
  });
}

/** @param english with {0}, {1} … where the values go */
export function t(english: string, ...values: readonly (string | number)[]): string {
  return (translated(english) ?? english).replace(/\{(\d)\}/g, (place, i: string) =>
    String(values[Number(i)] ?? place),
  );
}
