import type { TrialPlan } from '../../planning/make-plan.js';
import type { VerdictChances } from '../../planning/walls-needed/verdict-chances.js';
import { type Block, type Line, paragraph, type Section, strong } from '../../report/document.js';
import { formatStated } from '../../words/format-number.js';
import { numberInWords } from '../../words/quantity.js';
import { computedDifference, statedDifference } from './plan-words.js';

const columns = [
  ['worthwhile', 'worthwhile'],
  ['some-effect', 'some effect'],
  ['smaller-than-worthwhile', 'smaller than worthwhile'],
  ['no-worthwhile-effect', 'no worthwhile effect'],
  ['harmful', 'harmful'],
  ['undecided', 'undecided'],
  ['not-answerable', 'no answer'],
] as const satisfies readonly (readonly [keyof VerdictChances, string])[];

/** How often this trial would say what, whatever the truth is. */
export function chancesSection(planned: TrialPlan): Section {
  return {
    id: 'chances',
    heading: 'How often its verdict would be wrong',
    blocks: [...sentences(planned), table(planned), ...assumptions(planned)],
  };
}

function sentences({ truths, wanted, plan, series }: TrialPlan): readonly Block[] {
  const unit = plan.outcome.unit;
  const nothing = truths.find(({ effect }) => effect === 0)?.chances;
  const large = truths.find(({ effect }) => effect === wanted.effect)?.chances;
  if (nothing === undefined || large === undefined) return [];
  const denied = nothing['no-worthwhile-effect'] + nothing['smaller-than-worthwhile'] + nothing.harmful;
  const items: readonly Line[] = [
    [
      strong(
        `A useless treatment would be called worthwhile in ${inThousand(nothing.worthwhile)} of 1000 such trials.`,
      ),
    ],
    [
      strong(
        `A treatment with a true effect of ${statedDifference(wanted.effect, unit)} would be found worthwhile in ${inHundred(large.worthwhile)} of 100.`,
      ),
    ],
    [`Of a useless treatment the trial would say that it is not worthwhile in ${inHundred(denied)} of 100.`],
    [`It would stay undecided in ${inHundred(nothing.undecided)} of 100 where there is no effect.`],
  ];
  return [{ kind: 'list', items }, ...(series === undefined ? [] : [seriesParagraph(series, unit, wanted.margin)])];
}

function seriesParagraph(
  { betweenWalls, apartByThemselves }: NonNullable<TrialPlan['series']>,
  unit: string,
  margin: number,
): Block {
  const apart =
    apartByThemselves === undefined
      ? ''
      : ` Two walls treated alike would differ by more than ${statedDifference(margin, unit)} on the better side in ${inHundred(apartByThemselves)} of 100 cases.`;
  return paragraph(
    strong('Two walls speak of themselves alone. '),
    `Whatever else sets them apart counts as the effect: by themselves their changes differ with a standard deviation of ${computedDifference(betweenWalls, unit)}.${apart} No number of visits mends this, and the verdict never generalises to other walls.`,
  );
}

function table({ truths, plan, wanted }: TrialPlan): Block {
  return {
    kind: 'table',
    caption: 'Verdicts in 1000 such trials, by the true effect',
    columns: [
      { header: `True effect (${plan.outcome.unit})`, look: 'whole' },
      ...columns.map(([, header]) => ({ header, look: 'number' as const })),
    ],
    rows: truths.map(({ effect, chances }) => [
      [`${formatStated(effect)}${wordOf(effect, wanted)}`],
      ...columns.map(([code]): Line => [inThousand(chances[code])]),
    ]),
  };
}

function wordOf(effect: number, { margin, effect: sought }: TrialPlan['wanted']): string {
  if (effect === 0) return ' (useless)';
  if (effect === margin) return ' (the margin)';
  return effect === sought ? ' (to be found)' : '';
}

function assumptions({ comparison, pilot, plan }: TrialPlan): readonly Block[] {
  const { spreads, dropOut, uncertainty, sampling } = comparison;
  const unit = plan.outcome.unit;
  const sd = (value: number) => computedDifference(value, unit);
  const correlation =
    comparison.design.kind === 'complete' || comparison.design.kind === 'two-walls'
      ? ''
      : ` Changes of walls in one ${comparison.design.kind === 'pairs' ? 'pair' : comparison.design.kind === 'blocks' ? 'block' : 'house'} correlate by ${numberInWords(spreads.correlation, 2)}.`;
  const from =
    pilot === undefined || uncertainty === undefined
      ? `The standard deviations come from: ${plan.planning.spreads?.source ?? 'the plan, without a source'}.`
      : `The standard deviations come from ${pilot.isInvented ? 'an invented trial (no real walls)' : 'a pilot'}, ${pilot.name}, with ${pilot.count} walls: between walls its 95 % interval runs from ${sd(pilot.walls.lower)} to ${sd(pilot.walls.upper)}. The chances are means over what it leaves possible.`;
  return [
    paragraph(
      `These chances assume standard deviations of ${sd(spreads.walls)} between the changes of walls treated alike, ${sd(spreads.stations)} between stations, ${sd(spreads.visits)} between visits and ${sd(Math.hypot(spreads.readings, spreads.measurement))} between readings.${correlation} Successive visits correlate by ${numberInWords(spreads.autocorrelation, 2)}. ${inHundred(dropOut)} walls of 100 are lost. Each wall is read at ${sampling.stations} stations, on ${sampling.visitsBefore} visits before and ${sampling.visitsAfter} after.`,
    ),
    paragraph(from),
    paragraph(
      'The chances are those of the interval alone, for changes that vary normally and alike in both arms. Threats to validity are not in them: a season, a reader who knows, a leak. They move the evidence beside the verdict.',
    ),
  ];
}

/** Never 0 for something that may happen. */
function inThousand(chance: number): string {
  const rounded = Math.round(1000 * chance);
  if (rounded === 0) return chance > 1e-9 ? 'under 1' : '0';
  return rounded === 1000 && chance < 1 - 1e-9 ? 'over 999' : `${rounded}`;
}

function inHundred(chance: number): string {
  const rounded = Math.round(100 * chance);
  if (rounded === 0) return chance > 1e-9 ? 'under 1' : '0';
  return rounded === 100 && chance < 1 - 1e-9 ? 'over 99' : `${rounded}`;
}
