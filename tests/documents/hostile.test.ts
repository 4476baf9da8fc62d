import { HtmlValidate } from 'html-validate';
import { beforeAll, describe, expect, it } from 'vitest';
import { FORMATS } from '../../src/cli/commands/sheet.ts';
import type { Decision } from '../../src/decision/decide.ts';
import { DocumentContext } from '../../src/documents/document-context.ts';
import { KINDS } from '../../src/documents/kinds/all.ts';
import { htmlRules } from './html-rules.ts';
import { CASE_FOR, decisionOn, papersOf } from './papers.ts';

const HOSTILE = `<script>alert(1)</script>"'><img src=x onerror=alert(1)> & {studio} *b* [l](javascript:x) \`c\` | \u202Eback`;

/** Text fields of cases and answers; the others are words of a closed list. */
const FREE = new Set(
  'ref title name by of when file because source text sentence label how from to weakest_link weakestLink what note gap_after case version digest'.split(
    ' ',
  ),
);

/** Every free text of a structure with the hostile string after it. */
function poison(value: unknown, key = '', seen = new Map<object, unknown>()): unknown {
  if (typeof value === 'string') return FREE.has(key) ? `${value} ${HOSTILE}` : value;
  if (value === null || typeof value !== 'object') return value;
  if (Array.isArray(value)) return value.map((each) => poison(each, key, seen));
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, poison(inner, name, seen)]));
}

function poisoned(decision: Decision): Decision {
  return {
    ...decision,
    answer: poison(decision.answer) as Decision['answer'],
    situation: {
      ...decision.situation,
      quiltCase: {
        ...(poison(decision.situation.quiltCase) as Decision['situation']['quiltCase']),
        quilt: { ...decision.situation.quiltCase.quilt, title: HOSTILE, must_stay: [HOSTILE] },
      },
    },
  };
}

const photos = [
  { file: HOSTILE, of: HOSTILE, when: HOSTILE, data: 'data:image/png;base64,AAAA' },
  { file: HOSTILE, of: HOSTILE, when: HOSTILE, data: undefined },
];
const card = { name: HOSTILE, contact: HOSTILE, currency: '<b>', logo: 'data:image/png;base64,AAAA' };

describe.each(KINDS)('a $name with hostile strings in every field', (kind) => {
  let doc: DocumentContext;
  beforeAll(async () => {
    const decision = await decisionOn(CASE_FOR[kind.name] ?? '');
    doc = new DocumentContext(await papersOf(poisoned(decision), card, photos));
  }, 120_000);

  it('is valid HTML in which they are text', async () => {
    const html = FORMATS.html(kind.write(doc));
    expect(html).toContain('&lt;script>alert(1)');
    expect(html).not.toMatch(/<script|<img src="?x/i);
    expect(html).not.toMatch(/\u202E/);
    const report = await new HtmlValidate(htmlRules).validateString(html);
    expect(
      report.results.flatMap(({ messages }) =>
        messages.map(({ ruleId, message, line }) => `${line} ${ruleId}: ${message}`),
      ),
    ).toEqual([]);
  });

  it('is Markdown without live marks and text without signs that turn it round', () => {
    const markdown = FORMATS.markdown(kind.write(doc));
    expect(markdown).not.toMatch(/(?<!\\)<script|(?<!\\)\[l(?<!\\)\]\(/);
    const text = FORMATS.text(kind.write(doc)).replaceAll('\n', '');
    expect(text).not.toMatch(/[\p{Cc}\u202A-\u202E]/u);
  });

  it('fills no placeholder that a case brings along', () => {
    expect(FORMATS.text(kind.write(doc))).toContain('{studio}');
  });
});
