import type { Opinion } from '../opinion/opinion.js';
import { displayText } from '../words/display-text.js';
import { annexesOf } from './annexes.js';
import type { BesideOpinion } from './beside-opinion.js';
import { link, quoted, type ReportDocument, type Section } from './document.js';
import { againstSection } from './main/against-section.js';
import { declarationSection, shortLimitsSection } from './main/closing-sections.js';
import { commissionSection } from './main/commission-section.js';
import { firstPageSection } from './main/first-page-section.js';
import { readingSection } from './main/reading-section.js';
import { resultSection } from './main/result-section.js';
import { trialSection } from './main/trial-section.js';
import { toSign } from './words/to-sign.js';

/** The whole report: a page for whoever asked, two for a professional, and annexes for whoever doubts it. */
export function reportDocument(opinion: Opinion, beside: BesideOpinion = {}): ReportDocument {
  const { annexes, see } = annexesOf(opinion, beside);
  const further: readonly Section[] = [
    // Where there is no answer, two sheets hold it all.
    { ...commissionSection(opinion, see), ...(opinion.verdict.code === 'not-answerable' ? { flows: true } : {}) },
    trialSection(opinion, see),
    resultSection(opinion, see),
    againstSection(opinion, see),
    readingSection(opinion, see),
    shortLimitsSection(opinion, see),
    declarationSection(opinion),
  ];
  const contents = [...further, ...annexes].map(({ heading, id }) => link(heading, id));
  return {
    kicker: 'Opinion on a trial of a treatment against damp',
    title: quoted(opinion.protocol.title),
    foot: footOf(opinion),
    sections: [firstPageSection(opinion, see, contents, beside.nextTrial), ...further, ...annexes].map(toSign),
  };
}

const longTitle = 60;

function footOf({ protocol, fingerprint }: Opinion): string {
  const title = displayText(protocol.title);
  const short = title.length > longTitle ? `${title.slice(0, longTitle - 1)}…` : title;
  return `${short} · trial folder ${fingerprint.slice(0, 12)}`;
}
