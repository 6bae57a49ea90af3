import type { TrialPlan } from '../../planning/make-plan.js';
import { quoted, type ReportDocument } from '../../report/document.js';
import { allocationSection } from './allocation-section.js';
import { calendarSection } from './calendar-section.js';
import { chancesSection } from './chances-section.js';
import { placesSection } from './places-section.js';
import { questionSection } from './question-section.js';
import { signaturesSection, siteSection } from './site-section.js';
import { sizeSection } from './size-section.js';

/** The plan as a page to be signed before the first reading: what is asked, how often it would be answered wrongly, when, where and by whom. */
export function planDocument(planned: TrialPlan): ReportDocument {
  return {
    kicker: 'Plan of a trial, to be signed before the first reading',
    title: quoted(planned.plan.title),
    sections: [
      questionSection(planned),
      chancesSection(planned),
      sizeSection(planned),
      calendarSection(planned),
      placesSection(planned),
      allocationSection(planned),
      siteSection(),
      signaturesSection(),
    ],
  };
}
