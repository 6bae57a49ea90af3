import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');

describe('README.md', () => {
  it('is short enough to be read', () => {
    expect(readme.trimEnd().split('\n').length).toBeLessThanOrEqual(100);
  });

  it('leads to nothing that is not there', () => {
    const links = [...readme.matchAll(/\]\(([^)#]+)(?:#([^)]+))?\)/g)].filter(([, path = '']) => !path.includes(':'));
    expect(links.length).toBeGreaterThan(10);
    for (const [, path = '', heading] of links) {
      expect(existsSync(join(root, path)), path).toBe(true);
      if (heading === undefined) continue;
      const headings = readFileSync(join(root, path), 'utf8').matchAll(/^#+ (.*)$/gm);
      const names = [...headings].map(([, text = '']) =>
        text
          .toLowerCase()
          .replace(/[^\p{L}\p{N} -]/gu, '')
          .replaceAll(' ', '-'),
      );
      expect(names, heading).toContain(heading);
    }
  });
});
