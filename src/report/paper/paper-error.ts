/** Thrown where what goes on paper cannot be made: no browser to print with, or a photograph that is none. */
export class PaperError extends Error {
  override readonly name = 'PaperError' as const;
}
