import { beforeAll, describe, expect, it } from 'vitest';
import type { Opinion } from '../../src/opinion/opinion.js';
import { isWeighed, type Threat } from '../../src/opinion/threats/threat.js';
import { nearestRates } from '../../src/planning/index.js';
import type { ReportDocument } from '../../src/report/document.js';
import { reportDocument } from '../../src/report/report-document.js';
import { toMarkdown } from '../../src/report/writers/to-markdown.js';
import { bundledOpinion } from '../helpers/bundled-opinions.js';

/** Where the report answers an attack: by a threat that was looked for, and named, or by what a section says. */
type Answer =
  | { readonly threat: Threat['code']; readonly finding: Threat['finding']; readonly weighs?: true }
  | { readonly section: string; readonly says: RegExp };

type Reading = Readonly<Record<string, readonly Answer[]>>;

const quiet = (threat: string): Answer => ({ threat, finding: 'not-found' });
const found = (threat: string): Answer => ({ threat, finding: 'found', weighs: true });
const silent = (threat: string): Answer => ({ threat, finding: 'could-not-be-looked-for', weighs: true });
const open = (threat: string): Answer => ({ threat, finding: 'could-not-be-looked-for' });
const says = (section: string, words: RegExp): Answer => ({ section, says: words });

/** By an expert for whoever would not pay: the device is said to work. */
const againstWorthwhile: Reading = {
  'the walls would have dried by themselves': [quiet('no-untreated-walls'), says('result', /sham.*\n.*Difference/)],
  'somebody picked the walls that would dry': [quiet('not-randomised'), quiet('allocation-not-stated')],
  'the treated walls were wetter at the start': [
    quiet('before-values-unlike'),
    says('annex-analyses', /Baseline-adjusted \(ANCOVA\)/),
  ],
  'the readers knew, and read what they hoped for': [
    quiet('readers-knew'),
    quiet('arms-guessed'),
    says('annex-robustness', /What people believed of which walls were treated/),
  ],
  'cores were counted as if each were a wall': [
    says('result', /12 walls/),
    says('annex-walls', /Each wall counts once/),
    says('annex-analyses', /cluster-robust \(CR2\) by wall/),
  ],
  'the method was chosen for its result': [says('answer', /22 of 22 reasonable analyses/)],
  'one wall carries it all': [quiet('turns-without-one'), says('answer', /any one wall, block or reader does not/)],
  'the season differed': [quiet('windows-in-different-months'), quiet('days-unlike')],
  'the air beside the treated walls was drier': [quiet('air-unlike'), says('annex-air', /Evaporation potential/)],
  'walls cannot dry so fast': [quiet('larger-than-ceiling')],
  'the numbers are copied or made up': [quiet('numbers-copied'), quiet('spread-too-small')],
  'the cores were not dried alike': [quiet('dried-unlike'), quiet('not-dried-to-constant-mass')],
  'the plan was changed afterwards': [found('plan-not-locked'), says('answer', /plan was not sealed/)],
  'significant is not worthwhile': [says('answer', /beyond the 2 percentage points that the plan calls worthwhile/)],
  'a small bias would undo it': [says('answer', /A bias of 1\.21 percentage points/)],
  'such a trial calls useless treatments worthwhile': [says('annex-error-rates', /\d/)],
};

/** By an expert for whoever sells the box: it is said to do nothing that matters. */
const againstNone: Reading = {
  'the walls with the box dried by three points': [
    says('reading', /fell by 3\.21 .* fell by 2\.94/),
    quiet('no-untreated-walls'),
  ],
  'nothing found in a small trial is no proof of nothing': [
    says('answer', /0\.83 .* stays below the 2 percentage points/),
    says('annex-error-rates', /\d/),
  ],
  'the walls were read too early': [quiet('after-too-early')],
  'the walls were too dry to lose that much': [quiet('walls-too-dry')],
  'the walls were wet by something that the box is not for': [quiet('water-from-elsewhere')],
  'the box dried the sham walls next to it too': [open('carry-over'), says('against', /carry-over to neighbours/)],
  'the walls with the box were the harder ones': [quiet('walls-unlike'), quiet('before-values-unlike')],
  'the meter shows that the box acts': [says('annex-robustness', /Graded indirect whatever it shows/)],
  'lost cores hid it': [quiet('stations-lost'), quiet('walls-left-out')],
  'another analysis would have found it': [says('answer', /21 of 21 reasonable analyses/)],
  'one pair or one reader hid it': [
    found('turns-without-one'),
    found('turns-without-reader'),
    says('answer', /changes without block P02 .* changes without reader R1/),
  ],
  'a bias hid it': [says('reading', /bias of 0\.29 percentage points hid an effect/)],
  'weighing is too coarse': [
    says('annex-instruments', /standard uncertainty of 0\.0\d\d percentage points from weighing/),
  ],
  'the margin was set afterwards': [found('plan-not-locked'), says('trial', /Fixed on .*worthwhile is 2/)],
};

/** By an expert for the seller, to whom “cannot say” is a loss. */
const againstNoAnswer: Reading = {
  'all ten walls dried: what more is wanted': [found('no-untreated-walls'), says('answer', /none was left untreated/)],
  'no summer dries walls by four points': [found('windows-in-different-months')],
  'the fall is highly significant': [says('result', /No interval could be computed/)],
  'the wettest walls are those that matter': [found('walls-chosen-wettest')],
  'nothing else changed in those cellars': [silent('air-not-recorded')],
  'the readers are experienced': [found('readers-knew'), says('trial', /Kept blind \| nobody/)],
  'the meter is a good one': [silent('meter-not-checked')],
  'the report hides the success': [
    says('answer', /What was seen: .* fell by 4\.15/),
    says('reading', /fell by 4\.2 percentage points/),
  ],
  'so the device is called useless': [says('answer', /does not say that the treatment does nothing/)],
  'no trial would satisfy you': [says('answer', /Leave some of the walls untreated/)],
  'the seller’s part is irrelevant': [found('seller-interest'), says('trial', /the readers work for the seller/)],
  'another expert would see it otherwise': [says('reading', /Another expert could give the change/)],
};

function missing(answer: Answer, opinion: Opinion, report: ReportDocument): string | undefined {
  if ('section' in answer) {
    const sections = report.sections.filter(({ id }) => id === answer.section);
    return answer.says.test(toMarkdown({ ...report, sections })) ? undefined : `${answer.section}: ${answer.says}`;
  }
  const threat = opinion.threats.find(({ code }) => code === answer.threat);
  const stands = threat?.finding === answer.finding && isWeighed(threat) === (answer.weighs === true);
  if (!stands || threat === undefined) return `${answer.threat}: ${threat?.finding ?? 'not looked for'}`;
  const annex = report.sections.filter(({ id }) => id === 'annex-threats');
  return toMarkdown({ ...report, sections: annex }).includes(threat.name) ? undefined : `${answer.threat}: not named`;
}

const readings = [
  ['paired-garden-walls', 'worthwhile', againstWorthwhile],
  ['season-dries-both', 'no-worthwhile-effect', againstNone],
  ['treated-walls-only', 'not-answerable', againstNoAnswer],
] as const;

describe.each(readings)('a hostile reading of %s, which is %s', (name, verdict, reading) => {
  let opinion: Opinion;
  let report: ReportDocument;
  beforeAll(async () => {
    opinion = await bundledOpinion(name);
    const errorRates = nearestRates(opinion);
    report = reportDocument(opinion, errorRates === undefined ? {} : { errorRates });
  }, 60_000);

  it('has eight attacks at least', () => {
    expect(opinion.verdict.code).toBe(verdict);
    expect(Object.keys(reading).length).toBeGreaterThanOrEqual(8);
  });

  it.each(Object.entries(reading))('“%s” is answered where it should be', (_, answers) => {
    expect(answers.flatMap((answer) => missing(answer, opinion, report) ?? [])).toEqual([]);
  });

  it('leaves some attacks on another trial unanswered, so that the answers are its own', () => {
    const others = readings.filter(([other]) => other !== name).flatMap(([, , attacks]) => Object.values(attacks));
    const unanswered = others.filter((answers) => answers.some((answer) => missing(answer, opinion, report)));
    expect(unanswered.length).toBeGreaterThan(8);
  });
});
