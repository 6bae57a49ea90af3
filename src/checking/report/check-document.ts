import { quoted, type ReportDocument } from '../../report/document.js';
import type { Trial } from '../../trial/index.js';
import { trialOverview } from '../trial-overview.js';
import { abilitiesSection } from './abilities-section.js';
import { countsSection, type Pictures } from './counts-section.js';
import { notUsedSection, understoodSection } from './ledger-sections.js';
import { missingSection } from './missing-section.js';
import { spreadsSection } from './spreads-section.js';

/** What a check says, in its order: what was read, what was not, what is missing, and what follows for the questions. */
export function checkDocument(trial: Trial, pictures: Pictures): ReportDocument {
  const overview = trialOverview(trial);
  const { ledger } = trial.source;
  return {
    kicker: 'What fairwall understood of a trial: no judgement, and no outcome by arm',
    title: quoted(trial.protocol.title),
    sections: [
      ...(ledger === undefined ? [] : [understoodSection(ledger), notUsedSection(ledger)]),
      missingSection(overview),
      abilitiesSection(overview),
      countsSection(overview, pictures),
      spreadsSection(overview),
    ],
  };
}
