import type { TrialPlan } from '../../planning/make-plan.js';
import type { VerdictChances } from '../../planning/walls-needed/verdict-chances.js';
import { type Block, type Line, paragraph, type Section, strong } from '../../report/document.js';
import { formatStated } from '../../words/format-number.js';
import { numberInWords } from '../../words/quantity.js';
import { computedDifference, inHundred, inThousand, statedDifference } from './plan-words.js';

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
    blocks: [...sentences(planned), table(planned), ...counted(planned), ...assumptions(planned)],
  };
}

function sentences({ truths, wanted, plan, series, simulated }: TrialPlan): readonly Block[] {
  const unit = plan.outcome.unit;
  const nothing = truths.find(({ effect }) => effect === 0)?.chances;
  const large = truths.find(({ effect }) => effect === wanted.effect)?.chances;
  if (nothing === undefined || large === undefined) return [];
  const denied = nothing['no-worthwhile-effect'] + nothing['smaller-than-worthwhile'] + nothing.harmful;
  const items: readonly Line[] = [
    [
      strong(
        `A useless treatment would be called worthwhile in ${inThousand(nothing.worthwhile, simulated?.trials)} of 1000 such trials.`,
      ),
    ],
    [
      strong(
        `A treatment with a true effect of ${statedDifference(wanted.effect, unit)} would be found worthwhile in ${inHundred(large.worthwhile, simulated?.trials)} of 100.`,
      ),
    ],
    [
      `Of a useless treatment the trial would say that it is not worthwhile in ${inHundred(denied, simulated?.trials)} of 100.`,
    ],
    [`It would stay undecided in ${inHundred(nothing.undecided, simulated?.trials)} of 100 where there is no effect.`],
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
    `Whatever else sets them apart counts as the effect. By themselves their changes differ with a standard deviation of ${computedDifference(betweenWalls, unit)}.${apart} No number of visits mends this, and the verdict never generalises to other walls.`,
  );
}

function table({ truths, plan, wanted, simulated }: TrialPlan): Block {
  return {
    kind: 'table',
    caption: `Verdicts in 1000 such trials, by the true effect${simulated === undefined ? '' : ` (a dash: in none of ${numberInWords(simulated.trials, 0)} simulated)`}`,
    columns: [
      { header: `True effect (${plan.outcome.unit})`, look: 'whole' },
      ...columns.map(([, header]) => ({ header, look: 'number' as const })),
    ],
    rows: truths.map(({ effect, chances }) => [
      [`${formatStated(effect)}${wordOf(effect, wanted)}`],
      ...columns.map(
        ([code]): Line => [simulated !== undefined && chances[code] === 0 ? '–' : inThousand(chances[code])],
      ),
    ]),
  };
}

/** Where the chances were counted: in how many trials, how far off they may be, and what the mixed model beside the answer would say. */
function counted({ simulated, wanted, plan }: TrialPlan): readonly Block[] {
  if (simulated === undefined) return [];
  const { trials, truths } = simulated;
  const of = (effect: number) => truths.find((truth) => truth.effect === effect)?.mixed?.chances;
  const worst = Math.max(...truths.flatMap(({ primary }) => Object.values(primary.errors)));
  const [nothing, large] = [of(0), of(wanted.effect)];
  const unfitted = large?.['not-answerable'] ?? 0;
  const mixed =
    nothing === undefined || large === undefined
      ? ''
      : ` By the mixed model that an opinion puts beside its answer, ${statedDifference(wanted.effect, plan.outcome.unit)} would be found worthwhile in ${inHundred(large.worthwhile)} of 100, and a useless treatment in ${inThousand(nothing.worthwhile, trials)} of 1000${unfitted === 0 ? '' : `; in ${inHundred(unfitted)} of 100 trials it sees no variance between walls and gives no interval`}.`;
  return [
    paragraph(
      strong('Counted, not computed. '),
      `A wall misses ${inHundred(plan.planning.missedVisits)} of 100 visits. Walls are then read different numbers of times, for which no formula holds. The chances are counts from ${numberInWords(trials, 0)} simulated trials; their Monte Carlo standard error is at most ${Math.round(1000 * worst)} in 1000.${mixed} The numbers of walls in the next part rest on an approximation.`,
    ),
  ];
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
      `These chances assume standard deviations of ${sd(spreads.walls)} between the changes of walls treated alike, ${sd(spreads.stations)} between stations, ${sd(spreads.visits)} between visits and ${sd(Math.hypot(spreads.readings, spreads.measurement))} between readings.${correlation} Successive visits correlate by ${numberInWords(spreads.autocorrelation, 2)}. ${dropOut === 0 ? 'No wall is lost' : `Of 100 walls ${inHundred(dropOut)} are lost`}. Each wall is read at ${sampling.stations} stations, on ${sampling.visitsBefore} visits before and ${sampling.visitsAfter} after.`,
    ),
    paragraph(from),
    paragraph(
      'The chances are those of the interval alone, for changes that vary normally and alike in both arms. Threats to validity are not in them: a season, a reader who knows, a leak. They move the evidence beside the verdict.',
    ),
  ];
}
