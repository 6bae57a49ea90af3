import type { Opinion } from '../opinion/opinion.js';
import type { BesideOpinion } from './beside-opinion.js';
import { quoted, type ReportDocument, type Section } from './document.js';
import { analysesSection } from './sections/analyses-section.js';
import { answerSection } from './sections/answer-section.js';
import { cautionsSection } from './sections/cautions-section.js';
import { coresSection } from './sections/cores-section.js';
import { dryingSection } from './sections/drying-section.js';
import { electricalSection } from './sections/electrical-section.js';
import { errorRatesSection } from './sections/error-rates-section.js';
import { heightsSection } from './sections/heights-section.js';
import { injectionSection } from './sections/injection-section.js';
import { instrumentsSection } from './sections/instruments-section.js';
import { judgingSection } from './sections/judging-section.js';
import { laboratorySection } from './sections/laboratory-section.js';
import { laterYearsSection } from './sections/later-years-section.js';
import { leftOutSection } from './sections/left-out-section.js';
import { limitsSection } from './sections/limits-section.js';
import { lockSection } from './sections/lock-section.js';
import { methodSection } from './sections/method-section.js';
import { numbersSection } from './sections/numbers-section.js';
import { plasterSection } from './sections/plaster-section.js';
import { provenanceSection } from './sections/provenance-section.js';
import { saltsSection } from './sections/salts-section.js';
import { sensorLogSection } from './sections/sensor-log-section.js';
import { seriesSection } from './sections/series-section.js';
import { threatsSection } from './sections/threats-section.js';
import { timelineSection } from './sections/timeline-section.js';
import { wallsSection } from './sections/walls-section.js';
import { waterSourceSection } from './sections/water-source-section.js';
import { wettingSection } from './sections/wetting-section.js';

/** The whole report in its order: the answer first, then what it rests on, what weakens it, and where it comes from. */
export function reportDocument(opinion: Opinion, { errorRates }: BesideOpinion = {}): ReportDocument {
  const sections: readonly (Section | undefined)[] = [
    answerSection(opinion),
    lockSection(opinion),
    numbersSection(opinion),
    wallsSection(opinion),
    seriesSection(opinion),
    analysesSection(opinion),
    heightsSection(opinion),
    laboratorySection(opinion),
    laterYearsSection(opinion),
    plasterSection(opinion),
    injectionSection(opinion),
    wettingSection(opinion),
    dryingSection(opinion),
    instrumentsSection(opinion),
    coresSection(opinion),
    electricalSection(opinion),
    saltsSection(opinion),
    waterSourceSection(opinion),
    sensorLogSection(opinion),
    timelineSection(opinion),
    threatsSection(opinion),
    judgingSection(opinion),
    errorRatesSection(errorRates),
    limitsSection(opinion),
    methodSection(opinion),
    cautionsSection(),
    leftOutSection(opinion),
    provenanceSection(opinion),
  ];
  return {
    kicker: 'Opinion on a trial of a treatment against damp',
    title: quoted(opinion.protocol.title),
    sections: sections.filter((section) => section !== undefined),
  };
}
