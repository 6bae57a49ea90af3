import type { Opinion } from '../opinion/opinion.js';
import { displayText } from '../words/display-text.js';
import { annexesOf } from './annexes.js';
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
export function reportDocument(opinion: Opinion): ReportDocument {
  const { annexes, see } = annexesOf(opinion);
  const further: readonly Section[] = [
    commissionSection(opinion, see),
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
    sections: [firstPageSection(opinion, see, contents), ...further, ...annexes].map(toSign),
  };
}

const longTitle = 60;

function footOf({ protocol, fingerprint }: Opinion): string {
  const title = displayText(protocol.title);
  const short = title.length > longTitle ? `${title.slice(0, longTitle - 1)}…` : title;
  return `${short} · trial folder ${fingerprint.slice(0, 12)}`;
}
