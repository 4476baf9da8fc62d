import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { type Browser, chromium } from 'playwright-core';

const USUAL = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/** CHROMIUM_PATH, or the first of the usual places. */
export const chromiumPath = (): string | undefined => {
  const { CHROMIUM_PATH: given } = process.env;
  return given === undefined || given === '' ? USUAL.find((path) => existsSync(path)) : given;
};

const hasPoppler = (): boolean => {
  try {
    execFileSync('pdftotext', ['-v'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
};

/**
 * Whether pages can be looked at here. Without a browser or pdftotext the tests are skipped and say so;
 * MENDWISE_REQUIRE_CHROMIUM=1 makes that an error instead.
 */
export function canLook(): boolean {
  const missing = [
    ...(chromiumPath() === undefined ? ['Chromium (set CHROMIUM_PATH, or install Debian’s chromium)'] : []),
    ...(hasPoppler() ? [] : ['pdftotext (Debian’s poppler-utils)']),
  ];
  if (missing.length === 0) return true;
  const line = `Pages are not looked at: no ${missing.join(' and no ')}.`;
  if (process.env.MENDWISE_REQUIRE_CHROMIUM === '1') throw new Error(line);
  process.stderr.write(`SKIPPED  ${line}\n`);
  return false;
}

export function launch(): Promise<Browser> {
  const root = process.getuid?.() === 0;
  return chromium.launch({
    executablePath: chromiumPath() ?? '',
    args: [
      '--disable-background-networking',
      '--disable-component-update',
      ...(root ? ['--no-sandbox'] : []),
    ],
  });
}
