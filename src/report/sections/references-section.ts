import type { Opinion } from '../../opinion/opinion.js';
import { type Block, type Line, paragraph, quoted, type Section } from '../document.js';

/** By what of the opinion a source is called for. */
interface Source {
  readonly text: string;
  readonly applies: (opinion: Opinion) => boolean;
}

const has =
  (...ids: readonly string[]) =>
  ({ analyses, effectSizes, primary }: Opinion): boolean => {
    const made = [...analyses, ...effectSizes].flatMap((answer) =>
      answer.kind === 'estimated' ? [answer.estimate.id] : [],
    );
    return ids.some((id) => made.includes(id) || (primary.kind === 'estimated' && primary.method === id));
  };

const always = () => true;
const isWeighed = ({ protocol }: Opinion) =>
  protocol.instruments.some(
    ({ instrument, kind }) => instrument === protocol.outcome.instrument && kind === 'gravimetric',
  );
const hasBeliefs = ({ judging }: Opinion) => (judging?.blinding.length ?? 0) > 0;

const sources: readonly Source[] = [
  {
    text: 'Campbell MK, Piaggio G, Elbourne DR, Altman DG. Consort 2010 statement: extension to cluster randomised trials. BMJ 2012;345:e5661.',
    applies: always,
  },
  {
    text: 'Sterne JAC, Savović J, Page MJ and others. RoB 2: a revised tool for assessing risk of bias in randomised trials. BMJ 2019;366:l4898.',
    applies: always,
  },
  {
    text: 'Student. The probable error of a mean. Biometrika 1908;6:1–25.',
    applies: has('paired-blocks', 'block-model', 'welch'),
  },
  {
    text: 'Welch BL. The generalization of “Student’s” problem when several different population variances are involved. Biometrika 1947;34:28–35.',
    applies: has('welch'),
  },
  { text: 'Fisher RA. The design of experiments. Oliver and Boyd, 1935.', applies: has('randomisation') },
  {
    text: 'Kenward MG, Roger JH. Small sample inference for fixed effects from restricted maximum likelihood. Biometrics 1997;53:983–997.',
    applies: has('mixed-model'),
  },
  {
    text: 'Bell RM, McCaffrey DF. Bias reduction in standard errors for linear regression with multi-stage samples. Survey Methodology 2002;28:169–181.',
    applies: has('cluster-robust'),
  },
  {
    text: 'Efron B, Tibshirani RJ. An introduction to the bootstrap. Chapman and Hall, 1993.',
    applies: has('bootstrap'),
  },
  {
    text: 'Hedges LV. Distribution theory for Glass’s estimator of effect size and related estimators. Journal of Educational Statistics 1981;6:107–128.',
    applies: has('hedges-g'),
  },
  {
    text: 'Fieller EC. Some problems in interval estimation. Journal of the Royal Statistical Society B 1954;16:175–185.',
    applies: ({ relative }) => relative !== undefined,
  },
  {
    text: 'Holm S. A simple sequentially rejective multiple test procedure. Scandinavian Journal of Statistics 1979;6:65–70.',
    applies: ({ judging }) => (judging?.secondary.length ?? 0) > 0,
  },
  {
    text: 'Bang H, Ni L, Davis CE. Assessment of blinding in clinical trials. Controlled Clinical Trials 2004;25:143–156.',
    applies: hasBeliefs,
  },
  {
    text: 'James KE, Bloch DA, Lee KK, Kraemer HC, Fuller RK. An index for assessing blindness in a multi-centre clinical trial. Statistics in Medicine 1996;15:1421–1434.',
    applies: hasBeliefs,
  },
  {
    text: 'JCGM 100:2008. Evaluation of measurement data – guide to the expression of uncertainty in measurement.',
    applies: isWeighed,
  },
];

/** The equations behind the answer, and the sources of the methods that were used, in full. */
export function referencesSection(opinion: Opinion): Section {
  const own = opinion.commission?.references ?? [];
  const used = sources.filter(({ applies }) => applies(opinion)).map(({ text }): Line => [text]);
  return {
    id: 'references',
    heading: 'Equations and references',
    blocks: [
      { kind: 'list', items: equations(opinion) },
      { kind: 'list', items: [...used, ...own.map((text): Line => [quoted(text)])] },
      paragraph(
        'Limits and figures without a source stand in the annexes as “our convention” or “common practice, no source”.',
      ),
    ] satisfies Block[],
  };
}

function equations({ primary, units }: Opinion): readonly Line[] {
  const change: Line = ['Change of a wall: c = mean over its stations of (after − before).'];
  const width: Line = [
    'Number of walls that would settle it: n × (width of the interval / margin)², for the width falls by the root of n.',
  ];
  if (primary.kind === 'not-estimated') return [change];
  const unit = units.kind === 'wall' ? 'walls' : `${units.kind}s`;
  switch (primary.method) {
    case 'paired-blocks':
      return [
        change,
        ['Difference: d = mean over the n blocks of dᵢ = cᵢ(treated) − cᵢ(untreated).'],
        ['Interval: d ± t(n − 1) × s/√n, with s the standard deviation of the dᵢ.'],
        width,
      ];
    case 'welch':
      return [
        change,
        [`Difference: d = mean of c over treated ${unit} − mean of c over untreated ${unit}.`],
        ['Interval: d ± t(ν) × √(s₁²/n₁ + s₂²/n₂), with ν by Welch and Satterthwaite.'],
        width,
      ];
    case 'block-model':
      return [change, ['Model: c = arm + block + error, by least squares; d is the coefficient of the arm.'], width];
    case 'paired-series':
      return [
        ['Series: yₜ = level + step × (after window) + eₜ, with eₜ = r eₜ₋₁ + noise; d is the step, averaged over r.'],
      ];
  }
}
