/**
 * What Stirling's formula lacks: log Gamma(a) - [(a - 1/2) log a - a + log(2 pi)/2], for a > 0.
 *
 * Densities written with it need no difference of huge logarithms. Above 10 the asymptotic series with Bernoulli
 * numbers; below, the recurrence excess(a) = excess(a + 1) + (a + 1/2) log(1 + 1/a) - 1.
 */
export function stirlingExcess(a: number): number {
  let excess = 0;
  let argument = a;
  while (argument < 10) {
    const logarithm = argument < 1 ? Math.log1p(argument) - Math.log(argument) : Math.log1p(1 / argument);
    excess += (argument + 0.5) * logarithm - 1;
    argument += 1;
  }
  return excess + asymptoticExcess(argument);
}

function asymptoticExcess(a: number): number {
  const inverse = 1 / a;
  const square = inverse * inverse;
  let series = 1 / 156;
  series = 691 / 360360 - square * series;
  series = 1 / 1188 - square * series;
  series = 1 / 1680 - square * series;
  series = 1 / 1260 - square * series;
  series = 1 / 360 - square * series;
  series = 1 / 12 - square * series;
  return inverse * series;
}
