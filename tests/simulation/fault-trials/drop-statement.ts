import type { KnewArm, Trial } from '../../../src/trial/index.js';
import { withProtocol, withWalls } from './change-trial.js';

/** What a trial must say for its evidence to be firm. */
export const coreStatements = [
  'allocation by',
  'plan day',
  'treatment days',
  'reader',
  'knew arm',
  'oven batches',
  'meter checks',
  'climate',
  'site',
  'material',
  'thickness',
  'funding',
  'interests',
] as const;
type CoreStatement = (typeof coreStatements)[number];

/**
 * The same trial without a word on one thing; all else stays. Silence may not make evidence firmer.
 *
 * @example dropStatement(trial, 'plan day').protocol.plannedOn // undefined
 */
export function dropStatement(trial: Trial, statement: CoreStatement): Trial {
  const { allocation, disclosures } = trial.protocol;
  switch (statement) {
    case 'allocation by':
      return withProtocol(trial, { allocation: { ...allocation, by: '' } });
    case 'plan day': {
      const { plannedOn: _, ...protocol } = trial.protocol;
      return { ...trial, protocol };
    }
    case 'treatment days':
      return withWalls(trial, ({ treatedOn: _, ...wall }) => wall);
    case 'reader':
      return { ...trial, cores: trial.cores.map(withoutReader), readings: trial.readings.map(withoutReader) };
    case 'knew arm':
      return { ...trial, cores: trial.cores.map(withoutKnowing), readings: trial.readings.map(withoutKnowing) };
    case 'oven batches': {
      const { batches: _, ...silent } = trial;
      return silent;
    }
    case 'meter checks': {
      const { checks: _, ...silent } = trial;
      return silent;
    }
    case 'climate':
      return { ...trial, climate: [] };
    case 'site':
      return withWalls(trial, ({ site: _, ...wall }) => wall);
    case 'material':
      return withWalls(trial, ({ material: _, ...wall }) => wall);
    case 'thickness':
      return withWalls(trial, ({ thickness_mm: _, ...wall }) => wall);
    case 'funding':
      return withProtocol(trial, { disclosures: { ...disclosures, funding: '' } });
    case 'interests':
      return withProtocol(trial, { disclosures: { ...disclosures, interests: '' } });
  }
}

const withoutReader = <Row extends { readonly reader?: string }>({ reader: _, ...row }: Row) => row;
const withoutKnowing = <Row extends { readonly knewArm?: KnewArm }>({ knewArm: _, ...row }: Row) => row;
