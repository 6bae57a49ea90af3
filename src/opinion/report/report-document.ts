import type { Opinion } from '../opinion.js';
import { analysesSection } from './analyses-section.js';
import { answerSection } from './answer-section.js';
import { cautionsSection } from './cautions-section.js';
import { coresSection } from './cores-section.js';
import { quoted, type ReportDocument, type Section } from './document.js';
import { dryingSection } from './drying-section.js';
import { electricalSection } from './electrical-section.js';
import { heightsSection } from './heights-section.js';
import { injectionSection } from './injection-section.js';
import { instrumentsSection } from './instruments-section.js';
import { judgingSection } from './judging-section.js';
import { laboratorySection } from './laboratory-section.js';
import { laterYearsSection } from './later-years-section.js';
import { leftOutSection } from './left-out-section.js';
import { limitsSection } from './limits-section.js';
import { lockSection } from './lock-section.js';
import { methodSection } from './method-section.js';
import { numbersSection } from './numbers-section.js';
import { plasterSection } from './plaster-section.js';
import { provenanceSection } from './provenance-section.js';
import { saltsSection } from './salts-section.js';
import { sensorLogSection } from './sensor-log-section.js';
import { seriesSection } from './series-section.js';
import { threatsSection } from './threats-section.js';
import { timelineSection } from './timeline-section.js';
import { wallsSection } from './walls-section.js';
import { waterSourceSection } from './water-source-section.js';
import { wettingSection } from './wetting-section.js';

/** The whole report in its order: the answer first, then what it rests on, what weakens it, and where it comes from. */
export function reportDocument(opinion: Opinion): ReportDocument {
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
