export type { Convergence } from './least-sum.js';
export {
  type HeldParameter,
  type NonlinearFit,
  type NonlinearParameter,
  nonlinearLeastSquares,
  type StartOutcome,
} from './nonlinear-least-squares.js';
export type { NonlinearProblem, ParameterBounds, ParameterValues } from './nonlinear-problem.js';
export { profileInterval } from './profile-interval.js';
