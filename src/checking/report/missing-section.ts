import { coreItems } from '../../opinion/index.js';
import { type Block, code, type Line, paragraph, type Section, type Table } from '../../report/document.js';
import type { CoreStatement } from '../core-statements.js';
import type { TrialOverview } from '../trial-overview.js';

/** What the folder leaves unsaid of the list on which firm evidence rests. */
export function missingSection({ statements, evidenceAtBest }: TrialOverview): Section {
  const missing = statements.filter((one) => one.kind === 'missing');
  const notYet = statements.filter((one) => one.kind === 'not-yet');
  const stated = statements.filter((one) => one.kind === 'stated');
  const summary =
    missing.length === 0
      ? 'Of what can be looked for so far, the folder says all that firm evidence needs.'
      : `Firm evidence needs more than the folder says. With what is unsaid now it can be ${evidenceAtBest} at best, whatever the readings show.`;
  return {
    id: 'missing',
    heading: 'What is missing',
    blocks: [
      paragraph(summary),
      ...statementsTable('Not said', 'What is lacking', missing),
      ...statementsTable('Looked for once both windows have been read', 'What it will need', notYet),
      ...(stated.length === 0
        ? []
        : [
            paragraph('The folder does say:'),
            { kind: 'list' as const, items: stated.map(({ item }): Line => [coreItems[item].says]) },
          ]),
    ],
  };
}

function statementsTable(caption: string, header: string, statements: readonly CoreStatement[]): readonly Block[] {
  if (statements.length === 0) return [];
  const table: Table = {
    kind: 'table',
    caption,
    columns: [
      { header: 'Firm evidence needs', look: 'prose' },
      { header, look: 'prose' },
    ],
    rows: statements.map((statement) => [[coreItems[statement.item].says], lacking(statement)]),
  };
  return [table];
}

function lacking(statement: CoreStatement): Line {
  const needs = statement.kind === 'missing' ? statement.needs : [coreItems[statement.item].where];
  return needs.flatMap((need, index) => [...(index === 0 ? [] : ['; ']), ...withCode(need)]);
}

/** Names of columns and keys stand between backticks. */
function withCode(text: string): Line {
  return text.split('`').map((part, index) => (index % 2 === 1 ? code(part) : part));
}
