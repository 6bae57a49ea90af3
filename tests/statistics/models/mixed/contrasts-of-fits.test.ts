import { describe, expect, it } from 'vitest';
import { fitMixedModel } from '../../../../src/statistics/models/mixed/fit-mixed-model.js';
import { kenwardRoger, kenwardRogerJoint } from '../../../../src/statistics/models/mixed/kenward-roger.js';
import { satterthwaite, satterthwaiteJoint } from '../../../../src/statistics/models/mixed/satterthwaite.js';
import { mixedModelCases, modelOf, relativeError } from './reference-cases.js';

const cases = mixedModelCases();

describe.each(cases)('contrasts of $name', (example) => {
  const fit = fitMixedModel(modelOf(example, 'reml'));
  const names = example.fixed.map(({ name }) => name);

  it('satterthwaite matches lmerTest for every coefficient', () => {
    names.forEach((name, at) => {
      const expected = example.tests.single[at]!.satterthwaite;
      const { standardError, degreesOfFreedom } = satterthwaite(fit, { [name]: 1 });
      expect(relativeError(standardError, expected.standardError)).toBeLessThan(1e-6);
      expect(relativeError(degreesOfFreedom, expected.degreesOfFreedom)).toBeLessThan(1e-4);
    });
  });

  it('kenwardRoger matches pbkrtest for every coefficient', () => {
    names.forEach((name, at) => {
      const expected = example.tests.single[at]!.kenwardRoger;
      const { standardError, degreesOfFreedom } = kenwardRoger(fit, { [name]: 1 });
      expect(relativeError(standardError, expected.standardError)).toBeLessThan(1e-6);
      expect(relativeError(degreesOfFreedom, expected.degreesOfFreedom)).toBeLessThan(1e-4);
    });
  });
});

const severalContrasts = cases.flatMap((example) =>
  example.tests.joint ? [{ ...example, joint: example.tests.joint }] : [],
);

describe.each(severalContrasts)('joint contrasts of $name', (example) => {
  const fit = fitMixedModel(modelOf(example, 'reml'));
  const contrasts = example.joint.rows.map((at) => ({ [example.fixed[at]!.name]: 1 }));

  it('satterthwaiteJoint matches lmerTest', () => {
    const expected = example.joint.satterthwaite;
    const test = satterthwaiteJoint(fit, contrasts);
    expect(relativeError(test.statistic, expected.statistic)).toBeLessThan(1e-6);
    expect(relativeError(test.denominatorDegreesOfFreedom, expected.degreesOfFreedom)).toBeLessThan(1e-4);
  });

  it('kenwardRogerJoint matches pbkrtest', () => {
    const expected = example.joint.kenwardRoger;
    const test = kenwardRogerJoint(fit, contrasts);
    expect(relativeError(test.statistic, expected.statistic)).toBeLessThan(1e-6);
    expect(relativeError(test.scale, expected.scale)).toBeLessThan(1e-6);
    expect(relativeError(test.denominatorDegreesOfFreedom, expected.degreesOfFreedom)).toBeLessThan(1e-4);
  });
});
