/**
 * The first sentence of a text; its whole where it is one.
 *
 * @example firstSentence('No margin was stated. That weighs 0.5 points.') // 'No margin was stated.'
 */
export function firstSentence(text: string): string {
  return sentencesIn(text)[0] ?? text;
}

/** A sentence ends where a stop is followed by a blank and a capital, a digit or a quotation mark. */
export function sentencesIn(text: string): readonly string[] {
  return text
    .trim()
    .split(/(?<=[.!?]”?)\s+(?=[“"(]?[\p{Lu}\d])/u)
    .filter((sentence) => sentence !== '');
}

/** Longer facts stand in the annex only. */
const longestFact = 170;

/**
 * The first sentence of a threat's facts where it is short enough for a first page; nothing where it is not, for a fact is never cut.
 *
 * @example shortFact('None of the 12 untreated walls had a sham. Those who lived there knew.') // 'None of the 12 untreated walls had a sham.'
 */
export function shortFact(text: string): string {
  const first = firstSentence(text);
  return first.length > longestFact ? '' : first;
}
