import type { Opinion } from '../../opinion/opinion.js';
import { type Block, code, paragraph, quoted, type Section } from '../document.js';

/** What this opinion was made from and with, how to check that, and who had an interest in it. */
export function provenanceSection(opinion: Opinion): Section {
  const { protocol, fingerprint, version, seed } = opinion;
  return {
    id: 'provenance',
    heading: 'Where it comes from',
    blocks: [
      paragraph('SHA-256 of the trial folder: ', code(fingerprint)),
      paragraph(
        'To check that a folder is the one judged here, run this inside it, in a shell that has sha256sum; it must print the same 64 digits. A change to any of these files changes them.',
      ),
      { kind: 'command', text: checkCommand(opinion) },
      paragraph(
        `Made with fairwall ${version}, seed ${seed}. The same folder, version and seed give the same opinion, byte for byte.`,
      ),
      ...commission(opinion),
      paragraph('To have all of it computed again and held against this opinion:'),
      { kind: 'command', text: 'npx fairwall verify OPINION-FOLDER TRIAL-FOLDER' },
      ...disclosures(protocol.disclosures.funding, protocol.disclosures.interests),
    ],
  };
}

function commission({ commission }: Opinion): Block[] {
  if (commission === undefined) return [];
  return [
    paragraph(
      'SHA-256 of commission.json and its photographs, made in the same way: ',
      code(commission.fingerprint),
      '. They are no part of the trial.',
    ),
  ];
}

function disclosures(funding: string, interests: string): Block[] {
  const stated = (text: string) => (text.trim() === '' ? 'not stated' : quoted(text));
  return [
    paragraph('Funding of the trial: ', stated(funding), '.'),
    paragraph('Interests of those who made it: ', stated(interests), '.'),
  ];
}

/** The fingerprint is the SHA-256 of the list that `sha256sum` prints for the files, in the order of their bytes. */
function checkCommand({ files }: Opinion): string {
  const names = [...new Set(files.map(({ file }) => file.split(' / ')[0] ?? file))].sort((a, b) => (a < b ? -1 : 1));
  return `LC_ALL=C sha256sum ${names.map(shellWord).join(' ')} | sha256sum`;
}

function shellWord(name: string): string {
  return /^[\w.-]+$/.test(name) ? name : `'${name.replaceAll("'", `'\\''`)}'`;
}
