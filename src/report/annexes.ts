import type { Opinion } from '../opinion/opinion.js';
import { type AnnexName, annexId, annexLetters, annexNames, type See } from './annex-names.js';
import type { BesideOpinion } from './beside-opinion.js';
import type { Block, Section } from './document.js';
import { analysesSection } from './sections/analyses-section.js';
import { cautionsSection } from './sections/cautions-section.js';
import { checklistSection } from './sections/checklist-section.js';
import { airSection, coresSection, potentialsSection } from './sections/cores-section.js';
import { dryingSection } from './sections/drying-section.js';
import { electricalSection } from './sections/electrical-section.js';
import { elevationSection } from './sections/elevation-section.js';
import { errorRatesSection } from './sections/error-rates-section.js';
import { glossarySection } from './sections/glossary-section.js';
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
import { nextTrialSection } from './sections/next-trial-section.js';
import { numbersSection } from './sections/numbers-section.js';
import { photographsSection } from './sections/photographs-section.js';
import { plasterSection } from './sections/plaster-section.js';
import { provenanceSection } from './sections/provenance-section.js';
import { referencesSection } from './sections/references-section.js';
import { saltsSection } from './sections/salts-section.js';
import { sensorLogSection } from './sections/sensor-log-section.js';
import { seriesSection } from './sections/series-section.js';
import { threatsSection } from './sections/threats-section.js';
import { timelineSection } from './sections/timeline-section.js';
import { wallsSection } from './sections/walls-section.js';
import { waterSourceSection } from './sections/water-source-section.js';
import { wettingSection } from './sections/wetting-section.js';

type Write = (opinion: Opinion, see: See, beside: BesideOpinion) => Section | undefined;

const parts: Readonly<Record<AnnexName, readonly Write[]>> = {
  walls: [wallsSection, elevationSection, timelineSection],
  analyses: [numbersSection, seriesSection, analysesSection, laterYearsSection],
  robustness: [judgingSection],
  threats: [threatsSection],
  plan: [lockSection],
  'error-rates': [(_, __, { errorRates }) => errorRatesSection(errorRates)],
  'next-trial': [(_, __, { nextTrial }) => nextTrialSection(nextTrial)],
  instruments: [instrumentsSection, sensorLogSection],
  cores: [heightsSection, coresSection, saltsSection, waterSourceSection],
  air: [airSection],
  drying: [dryingSection, laboratorySection],
  wetting: [wettingSection],
  potentials: [potentialsSection, electricalSection],
  works: [plasterSection, injectionSection],
  'left-out': [leftOutSection],
  photographs: [photographsSection],
  methods: [methodSection, referencesSection],
  checklist: [checklistSection],
  limits: [limitsSection, cautionsSection],
  glossary: [glossarySection],
  provenance: [provenanceSection],
};

/** The annexes that apply to an opinion, lettered, and how to refer to them. */
export function annexesOf(
  opinion: Opinion,
  beside: BesideOpinion,
): { readonly annexes: readonly Section[]; readonly see: See } {
  let present: readonly AnnexName[] = [];
  const { letterOf, see } = annexLetters(() => present);
  const written = (Object.keys(annexNames) as AnnexName[]).flatMap((name) => {
    const sections = parts[name].flatMap((write) => write(opinion, see, beside) ?? []);
    return sections.some(({ blocks }) => blocks.length > 0) ? [{ name, sections }] : [];
  });
  present = written.map(({ name }) => name);
  const annexes = written.map(({ name, sections }): Section => {
    return {
      id: annexId(name),
      heading: `Annex ${letterOf(name)}. ${annexNames[name]}`,
      part: 'annex',
      blocks: sections.length === 1 ? (sections[0]?.blocks ?? []) : sections.flatMap(underItsHeading),
    };
  });
  return { annexes, see };
}

function underItsHeading({ heading, blocks }: Section): readonly Block[] {
  return [
    { kind: 'subheading', text: heading },
    ...blocks.map((block): Block => (block.kind === 'subheading' ? { ...block, deep: true } : block)),
  ];
}
