/** Every message that a source hands to `say`, `word` or `l10n.t` as a literal, sorted. */
export function messagesIn(sources: readonly string[]): string[] {
  const found = new Set<string>();
  for (const text of sources)
    for (const [, double, single] of text.matchAll(
      /\b(?:say|word|l10n\.t)\(\s*(?:"((?:[^"\\]|\\.)*)"|'((?:[^'\\]|\\.)*)')/g,
    ))
      found.add(double === undefined ? single!.replaceAll("\\'", "'") : (JSON.parse(`"${double}"`) as string));
  return [...found].toSorted();
}
