/** Every message that a source hands to `say`, `said`, `word` or `l10n.t` as a literal, or states of a kind of finding; sorted. */
export function messagesIn(sources: readonly string[]): string[] {
  const found = new Set<string>();
  for (const text of sources)
    for (const [, double, single] of text.matchAll(
      /(?:\b(?:t|msg|l10n\.t)\(|^ {2}(?:unit|cause|remedy):)\s*(?:"((?:[^"\\]|\\.)*)"|'((?:[^'\\]|\\.)*)')/gm,
    ))
      found.add(double === undefined ? single!.replaceAll("\\'", "'") : (JSON.parse(`"${double}"`) as string));
  return [...found].toSorted();
}
