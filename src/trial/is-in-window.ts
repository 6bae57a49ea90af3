import type { Window } from './protocol.js';

/**
 * Whether an ISO day lies in a window; both ends belong to it.
 *
 * @example isInWindow('2024-05-31', { from: '2024-03-01', to: '2024-05-31' }) // true
 */
export function isInWindow(day: string, window: Window): boolean {
  return day >= window.from && day <= window.to;
}
