import type { Opinion } from '../../opinion/opinion.js';
import { sentencesIn } from './first-sentence.js';

/**
 * The verdict in at most three sentences: of a trial that cannot say, what it cannot, the one fact that makes it so, and what was seen.
 *
 * @example answerInWords(opinion) // 'In this trial the treatment made a worthwhile difference. Against the untreated walls …'
 */
export function answerInWords({ verdict }: Pick<Opinion, 'verdict'>): string {
  const sentences = sentencesIn(verdict.sentence);
  if (sentences.length <= 3) return verdict.sentence;
  const [first, second] = sentences;
  const seen = sentences.find((sentence) => sentence.startsWith('What was seen:'));
  return [first, second, seen].flatMap((sentence) => sentence ?? []).join(' ');
}
