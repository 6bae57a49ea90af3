/** Nodes and weights of a quadrature rule on the interval from -1 to 1. */
export interface QuadratureRule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/**
 * The Gauss-Legendre rule with the given number of points, exact for polynomials of degree 2n - 1.
 *
 * Nodes are the roots of the Legendre polynomial, found by Newton's method from the usual cosine guess.
 *
 * @example gaussLegendre(2).nodes // -0.577..., 0.577...
 */
export function gaussLegendre(points: number): QuadratureRule {
  const nodes = new Float64Array(points);
  const weights = new Float64Array(points);
  for (let i = 0; i < points; i++) {
    let node = -Math.cos((Math.PI * (i + 0.75)) / (points + 0.5));
    let slope = 1;
    for (let step = 0; step < 8; step++) {
      const [value, derivative] = legendre(points, node);
      slope = derivative;
      node -= value / derivative;
    }
    nodes[i] = node;
    weights[i] = 2 / ((1 - node * node) * slope * slope);
  }
  return { nodes, weights };
}

/** Legendre polynomial and its derivative by the three-term recurrence. */
function legendre(degree: number, x: number): [number, number] {
  let previous = 1;
  let current = x;
  for (let k = 2; k <= degree; k++) {
    const next = ((2 * k - 1) * x * current - (k - 1) * previous) / k;
    previous = current;
    current = next;
  }
  return [current, (degree * (x * current - previous)) / (x * x - 1)];
}
