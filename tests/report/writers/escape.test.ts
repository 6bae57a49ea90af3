import fc from 'fast-check';
import { micromark } from 'micromark';
import { gfm, gfmHtml } from 'micromark-extension-gfm';
import { describe, expect, it } from 'vitest';
import { escapeHtml } from '../../../src/charts/escape-html.js';
import { escapeMarkdown, markdownCode } from '../../../src/report/writers/escape-markdown.js';
import { displayText } from '../../../src/words/display-text.js';
import { anyCharacter } from '../../helpers/any-character.js';
import { hostileNames } from '../../helpers/opinion-fixture.js';

/** Words with what HTML, Markdown and tables listen to, so that random text hits it often. */
const text = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        ...hostileNames,
        '<',
        '>',
        '&',
        '&lt;',
        '|',
        '`',
        '``',
        '\\',
        '*',
        '_',
        '~~',
        '[a](b)',
        '![a](b)',
        '#',
        '-',
        '+',
        '1.',
        '2)',
        '=',
        '---',
        '://',
        'http://a.b',
        'www.a.b',
        'a@b.c',
        '\n',
        '\r\n',
        '\t',
        ' ',
        ':',
        '/',
        '[^1]',
        '- [x]',
        '$',
        '"',
        "'",
      ),
      fc.string({ unit: anyCharacter, maxLength: 4 }),
      fc.string({ maxLength: 4 }),
    ),
    { maxLength: 8 },
  )
  .map((parts) => parts.join(''));

function decoded(html: string): string {
  const names: Record<string, string> = { lt: '<', gt: '>', quot: '"', '#39': "'", amp: '&' };
  return html.replace(/&(lt|gt|quot|#39|amp);/g, (_, name: string) => names[name] ?? '');
}

/** The only text of a rendered page, or undefined where the page holds any element but the expected ones. */
function onlyText(html: string, before: string, after: string): string | undefined {
  const inside = html.startsWith(before) && html.endsWith(after) ? html.slice(before.length, -after.length) : '<';
  return inside.includes('<') ? undefined : decoded(inside);
}

const asGitHubDoes = (markdown: string) =>
  micromark(markdown, { extensions: [gfm()], htmlExtensions: [gfmHtml()], allowDangerousHtml: true });
/** Markdown itself drops spaces at the ends of lines and cells. */
const trimmed = (shown: string) => shown.replace(/^ +| +$/g, '');

describe('escapeHtml(text)', () => {
  it('leaves nothing that opens an element, an attribute or an entity, and reads back as the text', () => {
    fc.assert(
      fc.property(text, (each) => {
        const escaped = escapeHtml(each);
        expect(escaped).not.toMatch(/[<>"']/);
        expect(decoded(escaped)).toBe(displayText(each));
      }),
    );
  });
});

describe('escapeMarkdown(text), rendered by GitHub’s rules', () => {
  it('comes out as the text in a paragraph of its own', () => {
    fc.assert(
      fc.property(text, (each) => {
        const shown = trimmed(displayText(each));
        fc.pre(shown !== '');
        expect(onlyText(asGitHubDoes(escapeMarkdown(shown)), '<p>', '</p>')).toBe(shown);
      }),
    );
  });

  it('comes out as the text in a list item, where lines begin anew', () => {
    fc.assert(
      fc.property(text, (each) => {
        const shown = trimmed(displayText(each));
        fc.pre(shown !== '');
        expect(onlyText(asGitHubDoes(`- ${escapeMarkdown(shown)}`), '<ul>\n<li>', '</li>\n</ul>')).toBe(shown);
      }),
    );
  });

  it('stays inside its cell of a table', () => {
    fc.assert(
      fc.property(text, text, (first, second) => {
        const row = [first, second].map((each) => trimmed(displayText(each)));
        const html = asGitHubDoes(
          ['| a | b |', '| --- | --- |', `| ${row.map(escapeMarkdown).join(' | ')} |`].join('\n'),
        );
        const cells = [...html.matchAll(/<td>(.*?)<\/td>/gs)].map((match) => decoded(match[1] ?? ''));
        expect(cells).toEqual(row);
        expect(html.match(/<tr>/g)).toHaveLength(2);
      }),
    );
  });
});

describe('markdownCode(text), rendered by GitHub’s rules', () => {
  it('comes out as code that reads as the text, in a table as well', () => {
    fc.assert(
      fc.property(text, (each) => {
        const shown = trimmed(displayText(each));
        // A table takes a backslash before a bar for its own escape, whatever surrounds it.
        fc.pre(shown !== '' && !shown.includes('\\|'));
        const html = asGitHubDoes(['| a |', '| --- |', `| ${markdownCode(shown)} |`].join('\n'));
        expect(/<td><code>([^<]*)<\/code><\/td>/.exec(html)?.[1]).toSatisfy(
          (inside: string) => decoded(inside) === shown,
        );
      }),
    );
  });
});
