import { type Line, paragraph, type Section, strong } from '../../report/document.js';
import { siteCautions } from '../../trial/site-cautions.js';

const signers = ['Owner or occupant', 'Who pays', 'Who treats', 'Who reads', 'Who computes', 'The person who knows'];

/** Cautions before anybody drills. */
export function siteSection(): Section {
  const items = siteCautions.map(({ lead, text }): Line => [strong(lead), ` ${text}`]);
  return {
    id: 'before-signing',
    heading: 'Before anybody signs or drills',
    blocks: [{ kind: 'list', items }],
  };
}

/** Who stands by the plan; on one sheet with what they sign. */
export function signaturesSection(): Section {
  return {
    id: 'signatures',
    heading: 'Signatures',
    blocks: [
      paragraph(
        'Those who sign agree that the question, the margin, the windows and the analysis stay as they stand here, and that the result is told whatever it is.',
      ),
      {
        kind: 'table',
        caption: 'Signatures, before the first reading',
        columns: [{ header: 'Role', look: 'whole' }, { header: 'Name' }, { header: 'Date' }, { header: 'Signature' }],
        rows: signers.map((role): readonly Line[] => [[role], [line(20)], [line(12)], [line(22)]]),
      },
    ],
  };
}

/** To write on. */
function line(length: number): string {
  return '_'.repeat(length);
}
