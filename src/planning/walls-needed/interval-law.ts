import { beta, chiSquare, studentT } from '../../statistics/index.js';
import { gaussLegendre } from '../../statistics/numerics/quadrature/gauss-legendre.js';

/**
 * How wide an interval comes out by chance, in true standard errors: `critical` times the root of a chi-square over its degrees of
 * freedom, in each of several cases.
 */
export interface IntervalLaw {
  readonly degreesOfFreedom: number;
  readonly cases: readonly { readonly probability: number; readonly critical: number }[];
}

/** Student's interval: one case. */
export function studentLaw(degreesOfFreedom: number, level: number): IntervalLaw {
  return { degreesOfFreedom, cases: [{ probability: 1, critical: criticalOf(degreesOfFreedom, level) }] };
}

/** Enough for six digits of a chance from two walls an arm on. */
const welchCases = gaussLegendre(14);

/**
 * Welch's interval of two arms that vary alike: the pooled sum of squares is chi-square, and which part of it comes from one arm is
 * beta and independent of it. Given that part, Welch's degrees of freedom are known.
 */
export function welchLaw(one: number, other: number, level: number): IntervalLaw {
  const key = `${one} ${other} ${level}`;
  const law = welchLaws.get(key) ?? computedWelchLaw(one, other, level);
  // Kept, for a table asks for the same numbers of walls again and again; never so many that memory would tell.
  if (welchLaws.size < mostKept) welchLaws.set(key, law);
  return law;
}

const mostKept = 5000;
const welchLaws = new Map<string, IntervalLaw>();

function computedWelchLaw(one: number, other: number, level: number): IntervalLaw {
  const [dfOne, dfOther] = [one - 1, other - 1];
  const degreesOfFreedom = dfOne + dfOther;
  const part = beta(dfOne / 2, dfOther / 2);
  // By its angle, part = sin², the density has no poles.
  const [from, to] = [part.quantile(1e-13), part.upperQuantile(1e-13)].map((value) => Math.asin(Math.sqrt(value)));
  const [start = 0, end = Math.PI / 2] = [from, to];
  const nodes = Array.from(welchCases.nodes, (node, at) => {
    const angle = start + ((node + 1) / 2) * (end - start);
    const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
    const density = sine ** (dfOne - 1) * cosine ** (dfOther - 1);
    const varianceOne = sine ** 2 / (dfOne * one);
    const varianceOther = cosine ** 2 / (dfOther * other);
    const total = varianceOne + varianceOther;
    const df = total ** 2 / (varianceOne ** 2 / dfOne + varianceOther ** 2 / dfOther);
    const ratio = (degreesOfFreedom * total) / (1 / one + 1 / other);
    return { probability: (welchCases.weights[at] ?? 0) * density, critical: criticalOf(df, level) * Math.sqrt(ratio) };
  });
  const whole = nodes.reduce((sum, { probability }) => sum + probability, 0);
  return {
    degreesOfFreedom,
    cases: nodes.map(({ probability, critical }) => ({ probability: probability / whole, critical })),
  };
}

function criticalOf(degreesOfFreedom: number, level: number): number {
  return studentT(degreesOfFreedom).upperQuantile((1 - level) / 2);
}

const panel = gaussLegendre(20);
/** Of few degrees of freedom intervals are wide, and the chances change over a small part of their range. */
const fewDegrees = 6;
const fewDegreesInner = [0.03, 0.1, 0.3, 0.6, 1];

/** A half width that may come out, in true standard errors, and how much of the chance it stands for. */
export interface HalfWidth {
  readonly probability: number;
  readonly halfWidth: number;
}

/**
 * Nodes for the mean of any function of the half width, which is smooth but for one bend.
 *
 * @param bend a half width at which the function has a bend: it is integrated on either side of it
 */
export function halfWidthsOf(law: IntervalLaw, bend?: number): readonly HalfWidth[] {
  const { degreesOfFreedom: df, cases } = law;
  const squares = chiSquare(df);
  const from = Math.sqrt(squares.quantile(1e-14) / df);
  const to = Math.sqrt(squares.upperQuantile(1e-14) / df);
  // The density of the root of a chi-square over its degrees of freedom, which is largest near 1.
  const top = 2 * df * squares.density(df);
  const density = (root: number) => top * Math.exp((df - 1) * Math.log(root) - (df / 2) * (root * root - 1));
  // Of many cases each counts for little.
  const inner = df < fewDegrees ? fewDegreesInner : cases.length === 1 ? [1] : [];
  return cases.flatMap(({ probability, critical }) => {
    const at = bend === undefined ? to : Math.min(to, Math.max(from, bend / critical));
    return panelsOf(from, at, to, inner).flatMap(([start, end]) =>
      Array.from(panel.nodes, (node, index): HalfWidth => {
        const half = (end - start) / 2;
        const root = start + half * (1 + node);
        return {
          halfWidth: critical * root,
          probability: probability * half * (panel.weights[index] ?? 0) * density(root),
        };
      }),
    );
  });
}

function panelsOf(
  from: number,
  bend: number,
  to: number,
  inner: readonly number[],
): readonly (readonly [number, number])[] {
  const marks = [from, bend, to, ...inner.filter((end) => end > from && end < to)].sort((one, other) => one - other);
  return marks.slice(1).flatMap((end, at) => {
    const start = marks[at] ?? from;
    return end > start ? [[start, end] as const] : [];
  });
}
