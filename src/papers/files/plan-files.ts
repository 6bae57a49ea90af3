import { type FormChoices, meterKinds, placesOf } from '../../forms/form-choices.js';
import type { FormSheet } from '../../forms/form-sheet.js';
import { recordingSheets } from '../../forms/recording-sheets.js';
import { trialSheets, type WallPlace } from '../../forms/trial-sheets.js';
import { writeWorkbook } from '../../forms/write-workbook.js';
import { present } from '../../plain/present.js';
import type { PlannedVisit } from '../../planning/calendar/trial-calendar.js';
import type { TrialPlan } from '../../planning/make-plan.js';
import { planJson } from '../../records/lock/plan-json.js';
import { toHtml } from '../../report/writers/to-html.js';
import { planDocument } from '../page/plan-document.js';
import { planFolders } from '../plan-folders.js';
import { filesOfReaders, filesOfWhoKnows } from './allocation-files.js';
import { csvText } from './csv-text.js';
import { planAnswers } from './plan-answers.js';

/** Every file of a planned trial, by its path: the plan page, the chances, the calendar, both sides' files and the folder to fill in. */
export async function planFiles(planned: TrialPlan): Promise<ReadonlyMap<string, string | Uint8Array>> {
  const choices = choicesOf(planned);
  const visits = planned.calendar.visits.map((visit): [string, string] => [
    `${planFolders.readers}/visits/${visitName(visit)}.html`,
    recordingSheets(choices, { heading: visitHeading(visit) }),
  ]);
  const plan = { ...planned.plan, windows: planned.plan.windows ?? windowsOf(planned) };
  const places = placesOfWalls(planned);
  return new Map<string, string | Uint8Array>([
    ['plan.html', await toHtml(planDocument(planned))],
    ['chances.csv', chancesCsv(planned)],
    ['designs.csv', designsCsv(planned)],
    ['calendar.csv', calendarCsv(planned)],
    ...under(planFolders.knows, filesOfWhoKnows(planned)),
    ...under(`${planFolders.knows}/${planFolders.toLock}`, filesToLock(plan, planned, places)),
    ...under(planFolders.readers, filesOfReaders(planned)),
    ...visits,
    [`${planFolders.readers}/recording-sheets.xlsx`, await writeWorkbook(visitSheets(planned, choices))],
    [`${planFolders.trial}/trial.xlsx`, await writeWorkbook(trialSheets(choices, planAnswers(plan), places))],
  ]);
}

/** The block that a wall was drawn in, or its house, and the site that the plan states of it. */
function placesOfWalls({ allocation, plan: { planning } }: TrialPlan): ReadonlyMap<string, WallPlace> {
  const sites = new Map(planning.list?.map(({ wall, site }) => [wall, site]));
  return new Map(
    allocation.walls.map(({ wall, group }) => {
      const isHouse = planning.design === 'houses';
      const site = sites.get(wall) ?? (isHouse ? group : undefined);
      const block = isHouse ? undefined : group;
      return [wall, { ...(block === undefined ? {} : { block }), ...(site === undefined ? {} : { site }) }];
    }),
  );
}

/** A folder that `fairwall lock` can seal before there is a reading: the plan as it stands in the workbook, and the walls in their arms. */
function filesToLock(
  { allocation, ...plan }: TrialPlan['plan'],
  planned: TrialPlan,
  places: ReadonlyMap<string, WallPlace>,
): ReadonlyMap<string, string> {
  const { seed: _, ...withoutSeed } = allocation;
  const rows = planned.allocation.walls.map(({ wall, arm }) => {
    const { block = '', site = '' } = places.get(wall) ?? {};
    return [wall, arm, block, site];
  });
  return new Map([
    ['protocol.json', `${JSON.stringify(planJson({ ...plan, allocation: withoutSeed }), undefined, 2)}\n`],
    ['walls.csv', csvText(['wall', 'arm', 'block', 'site'], rows)],
  ]);
}

function under(folder: string, files: ReadonlyMap<string, string>): readonly [string, string][] {
  return [...files].map(([name, content]) => [`${folder}/${name}`, content]);
}

function windowsOf({ calendar: { before, after } }: TrialPlan) {
  return { before, after };
}

/** The forms know cores and the meters that are held to a wall. */
function choicesOf({ plan, places, allocation }: TrialPlan): FormChoices {
  const outcome = plan.instruments.find(({ instrument }) => instrument === plan.outcome.instrument);
  const meter = meterKinds.find((kind) => plan.instruments.some((one) => one.kind === kind));
  const cores = outcome?.kind === 'gravimetric' || meter === undefined;
  const names = allocation.walls.map(({ wall }) => wall);
  return {
    ...{ title: plan.title, cores, walls: names.length, names },
    heights_mm: places.map(({ height_mm }) => height_mm),
    ...present({ meter }),
  };
}

function visitName({ number, window }: PlannedVisit): string {
  return `visit-${String(number).padStart(2, '0')}-${window}`;
}

function visitHeading({ number, day, window }: PlannedVisit): string {
  return `Visit ${number}, ${window} the treatment, planned for ${day}`;
}

/** A sheet a visit, a row a place, in the columns in which it is written down at the wall. */
function visitSheets(planned: TrialPlan, choices: FormChoices): readonly FormSheet[] {
  const blanks = [
    ...(choices.meter === undefined ? [] : ['reading_1', 'reading_2']),
    ...(choices.cores ? ['core', 'container', 'container_g', 'wet_g', 'dry_g'] : []),
    ...['reader', 'knew_arm', 'remarks'],
  ];
  const columns = ['wall', 'station', 'height_mm', ...blanks].map((heading) => ({
    ...{ heading, width: Math.max(12, heading.length + 3) },
    needed: false,
  }));
  return planned.calendar.visits.map((visit) => ({
    name: visitName(visit),
    columns,
    rows: placesOf(choices).map(({ wall, station, height_mm }) => [wall, station, height_mm]),
    rules: [],
  }));
}

const codes = [
  'worthwhile',
  'some-effect',
  'smaller-than-worthwhile',
  'no-worthwhile-effect',
  'harmful',
  'undecided',
  'not-answerable',
] as const;

function chancesCsv({ truths, plan }: TrialPlan): string {
  const rows = truths.map(({ effect, chances }) => [
    String(effect),
    plan.outcome.unit,
    ...codes.map((code) => chances[code].toFixed(4)),
  ]);
  return csvText(['true_effect', 'unit', ...codes], rows);
}

function designsCsv({ size }: TrialPlan): string {
  const rows = (size?.table ?? []).map(({ walls, sampling, found, denied, cost }) => [
    ...[walls, sampling.stations, sampling.visitsBefore + sampling.visitsAfter].map(String),
    ...[found, denied].map((chance) => chance.toFixed(4)),
    cost === undefined ? '' : String(cost),
  ]);
  return csvText(['walls', 'stations', 'visits', 'chance_found', 'chance_denied', 'cost'], rows);
}

function calendarCsv({ calendar }: TrialPlan): string {
  const rows = calendar.visits.map(({ number, day, window }) => [day, `visit ${number}`, window]);
  const treatment = [calendar.treatment, 'treatment', ''];
  return csvText(
    ['day', 'what', 'window'],
    [...rows, treatment].toSorted(([one = ''], [other = '']) => (one < other ? -1 : 1)),
  );
}
