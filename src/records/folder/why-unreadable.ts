/** Why something in a folder cannot be opened, in the words that follow "found". */
export function whyUnreadable(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ENOENT') return 'nothing there';
  if (code === 'EACCES' || code === 'EPERM') return 'no permission to read it';
  return `that it cannot be opened${code === '' ? '' : ` (${code})`}`;
}
