import { describe, expect, it } from 'vitest';
import { CODES } from '../../src/problems/codes.ts';

const JARGON =
  /\b(schema|parse[dr]?|token|node|null|undefined|boolean|string|integer|array|object|exception|stack|stderr|stdin|regex|JSON|enum|scalar|mapping)\b/i;

describe.each(Object.entries(CODES))('%s', (code, { title, cause, cure }) => {
  it('is named in small letters and dashes', () => {
    expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });
  it('has a title without a full stop, and a cause and a cure that end with one', () => {
    expect(title).toMatch(/^[A-Z].*[^.]$/);
    expect(cause).toMatch(/^[A-Z].+\.$/);
    expect(cure).toMatch(/^[A-Z].+\.$/);
  });
  it('says it without jargon', () => {
    for (const text of [title, cause, cure]) expect(text).not.toMatch(JARGON);
  });
});

it('gives no two codes the same title', () => {
  const titles = Object.values(CODES).map((entry) => entry.title);
  expect(new Set(titles).size).toBe(titles.length);
});
