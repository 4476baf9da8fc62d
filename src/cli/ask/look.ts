import type { FindingDef, Vocabulary } from '../../findings/vocabulary.ts';

/** Ways of looking that a photo allows; pinching, tugging and needles want the cloth. */
const BY_EYE: ReadonlySet<string> = new Set(['look']);

/**
 * How to look for a finding, one paragraph an entry: the way, the observable signs of each grade or choice, and,
 * where cloth is tested, how to test and when to stop. `seen` in photos leaves out what only a hand can try.
 */
export function lookLines(def: FindingDef, vocabulary: Vocabulary, seen?: 'photos' | 'in hand'): string[] {
  const photos = seen === 'photos';
  const signs = def.options.flatMap(({ label, anchors }) => {
    const shown = Object.entries(anchors).filter(([way]) => !photos || BY_EYE.has(way));
    if (shown.length === 0) return [];
    return [`${label}: ${shown.map(([way, sign]) => `${way}: ${sign}`).join('; ')}.`];
  });
  if (def.kind === 'grade' && photos) return [FROM_PHOTOS, ...signs];
  const testing = def.kind === 'grade' ? [vocabulary.protocol, `Stop: ${vocabulary.stopRule}`] : [];
  return [`How to look: ${def.how}`, ...testing, ...signs];
}

const FROM_PHOTOS =
  'How to look: by eye only, at the worst place in the sharpest picture. A photo cannot grade cloth: it counts as that grade or a worse one.';
