import { describe, expect, it } from 'vitest';
import type { Answer } from '../../src/decision/answer-model.ts';
import { decide } from '../../src/decision/decide.ts';
import { caseFrom, context, shippedCase } from './shipped.ts';

const answerTo = async (quiltCase: Parameters<typeof decide>[0]): Promise<Answer> =>
  (await decide(quiltCase, context)).answer;

const twelve = (weakFibre: object) =>
  caseFrom({
    mendwise: 1,
    case: 'random',
    client: { intended_use: 'regular_bed', owners_agree: 'yes' },
    quilt: {
      size: { width: '40 in', height: '30 in' },
      layout: { kind: 'edge to edge', rows: 3, columns: 4, finished: '10 in x 10 in' },
      batting: { kind: 'bonded', rated_gap: '10 in', migrated: '5 %', crumbling: 'no' },
      backing: { kind: 'own', fragility: 'sound', damaged: '0 %' },
      joining: { kind: 'none' },
    },
    survey: {
      seen: 'in hand',
      families: { A: { fragility: 'sound', fibre: 'cotton' }, B: { fragility: 'weak', ...weakFibre } },
      units: '. . . .\n. . . .\n. . . .\n',
      family_map: 'A A A A\nA B B A\nA A A A\n',
      joins: { inspected: 17, open: 1, thread: 1, cloth: 0, allowance: 0 },
    },
  });

describe('what is not known', () => {
  it('never makes a firm decline where knowing it could lead to yes', async () => {
    expect(await answerTo(twelve({ fibre: 'cotton' }))).toMatchObject({
      standing: 'go_ahead',
      treatment: 'lines',
    });
    const { standing, provisional } = await answerTo(twelve({}));
    expect([standing, provisional]).not.toEqual(['decline', false]);
  });

  it('does not leave a hole unmended because nobody noted which fabric it is in', async () => {
    const crazy = shippedCase('opera-cloak-crazy.yaml');
    const { plan } = await answerTo({
      ...crazy,
      client: { ...crazy.client, wish: 'repair' },
      survey: { ...crazy.survey, counts: { of: 100, hole: 5 } },
    });
    const mended = Object.values(plan?.actions ?? {}).reduce((sum, { units }) => sum + units, 0);
    expect(mended).toBeGreaterThanOrEqual(5);
  });

  it('leaves no question about silk in a quilt of cotton', async () => {
    const { open } = await answerTo(twelve({ fibre: 'cotton' }));
    expect(open.map(({ finding }) => finding)).not.toContain('shattering_silk');
  });
});

describe('lines for daily use', () => {
  it('lie on every seam, with batting or without', async () => {
    const { plan } = await answerTo(shippedCase('loft-room-oblongs.yaml'));
    expect(plan).toMatchObject({ joining: 'lines', pattern: 'every seam', directions: 'both' });
  });
});
