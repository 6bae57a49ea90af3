import type { Opinion } from '../../opinion/opinion.js';
import type { See } from '../annex-names.js';
import { blank, type Line, paragraph, quoted, type Section, strong } from '../document.js';
import { dayText } from '../words/report-numbers.js';

/** The limits in a few lines; the annex has them in full. */
export function shortLimitsSection({ walls, protocol }: Opinion, see: See): Section {
  const { windows } = protocol;
  const items: readonly Line[] = [
    [`${wallsInWords(walls.length, windows)} Other materials, salts and exposures may differ. (`, see('walls'), ')'],
    ['An average: single walls may have changed more, less or the other way.'],
    [
      'No certificate and no specification. Local codes, licensed practice and heritage consent come first. (',
      see('limits'),
      ')',
    ],
  ];
  return {
    id: 'limits',
    heading: 'Limits',
    part: 'further',
    blocks: [{ kind: 'list', items: walls.length < 3 ? items.filter((_, index) => index !== 1) : items }],
  };
}

function wallsInWords(walls: number, windows: Opinion['protocol']['windows']): string {
  if (walls === 0) return 'No wall was compared.';
  const when =
    windows === undefined
      ? 'at the time of the readings'
      : `from ${dayText(windows.before.from)} to ${dayText(windows.after.to)}`;
  return `${walls === 1 ? 'This one wall' : `These ${walls} walls`}, ${when}.`;
}

/** The words above the signature are the signer’s: none stand here that nobody stated. */
export function declarationSection({ commission }: Opinion): Section {
  return {
    id: 'declaration',
    heading: 'Declaration and signature',
    part: 'further',
    blocks: [
      paragraph(
        strong('Interests of the author:'),
        ' ',
        commission?.interests === undefined ? blank : quoted(commission.interests),
      ),
      paragraph(
        strong('Declaration:'),
        ' ',
        commission?.declaration === undefined ? blank : quoted(commission.declaration),
      ),
      paragraph(
        strong('Place and date:'),
        ' ',
        blank,
        ...(commission?.opinionOn === undefined ? [] : [` (opinion of ${dayText(commission.opinionOn)})`]),
      ),
      paragraph(
        strong('Signature:'),
        ' ',
        blank,
        ...(commission?.author === undefined ? [] : [' ', quoted(commission.author)]),
      ),
    ],
  };
}
