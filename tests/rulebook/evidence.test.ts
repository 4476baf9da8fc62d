import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { KNOWLEDGE_FILES } from '../../src/rulebook/knowledge.ts';
import { ruleText } from '../decision/shipped.ts';

/**
 * Who may stand behind "published", by kind, and why: each answers for what it publishes with more than one person's
 * name, by editors, a committee, peers or a laboratory. A kind is known by its names, as the sources here write them.
 */
const ANSWERING: Readonly<Record<string, readonly string[]>> = {
  'public bodies: they answer to the public for advice on health and safety': [
    'Centers for Disease Control',
    'Environmental Protection Agency',
    'Consumer Product Safety',
    'National Park Service',
    'NIST',
    'California State Parks',
  ],
  'bodies of physicians: reviewed recommendations': ['American Academy of Pediatrics'],
  'museums, and institutes and associations of conservation: specialists, with editors': [
    'Museum',
    'Canadian Conservation Institute',
    'American Institute for Conservation',
    'AIC Textile Specialty Group',
    'National Gallery',
    'National Archives',
    'Smithsonian',
    'AMOL reCollections',
    'cameo.mfa.org',
    'shelburnemuseum',
  ],
  'sites of conservators and conservation scientists, as specialists of the matter at hand': [
    'conservationphysics.org',
    'textilisconservation.com',
    'aardenburg-imaging.com',
  ],
  'universities and their extension services': ['University'],
  'standards, and handbooks that quote them': ['CIE 157', 'Thomson, as quoted'],
  'journals: edited and reviewed': ['Hilgardia', 'California Agriculture', 'e-conservation'],
  'trade magazines and guilds with editors': ['American Patchwork and Quilting', 'Modern Quilt Guild'],
  'data of makers, who measure what they sell': ['APQS', 'after a thread maker'],
};

/**
 * Where one person or one shop says what they do: a page of their own, a blog, a shop's terms, a newspaper column.
 * A site of which nobody could find out who keeps it, such as conservationanswers.net, counts as one.
 */
const OWN_PAGE = /\b[\w.-]+\.(?:com|net|org|nu|blogspot)\b|\bblogspot\b|Generations Quilt Patterns/;

const answers = (part: string): boolean =>
  Object.values(ANSWERING).some((names) => names.some((name) => part.includes(name)));
const partsOf = (source: string): string[] => source.split(/;\s*/);

interface Claim {
  readonly evidence: string;
  readonly source: string;
}
/** What is wrong with how a source is labelled, or nothing. */
function mislabelled({ evidence, source }: Claim): string | undefined {
  const parts = partsOf(source);
  if (evidence === 'published' && !parts.some(answers)) return `published by nobody who answers: ${source}`;
  if (evidence !== 'one account') return undefined;
  if (parts.some(answers)) return `more than one account: ${source}`;
  return parts.some((part) => OWN_PAGE.test(part)) ? undefined : `nobody's account: ${source}`;
}

/** Every evidence with its source, wherever it stands in a file. */
const claimsIn = (value: unknown): Claim[] => {
  if (typeof value !== 'object' || value === null) return [];
  const inside = Object.values(value).flatMap(claimsIn);
  const { evidence, source } = value as Partial<Claim>;
  return typeof evidence === 'string' && typeof source === 'string'
    ? [{ evidence, source }, ...inside]
    : inside;
};

describe('what rules, findings and figures rest on', () => {
  const claims = KNOWLEDGE_FILES.flatMap((file) => claimsIn(parse(ruleText(file))));

  it('is read from every file: as many claims as the files have lines that make one', () => {
    // Comments explain the words; only lines that use them are counted.
    const text = KNOWLEDGE_FILES.map(ruleText)
      .join('\n')
      .replace(/^\s*#.*$/gm, '');
    expect(claims.length).toBe(text.match(/\bevidence: /g)?.length);
    for (const kind of ['published', 'one account'])
      expect(claims.filter(({ evidence }) => evidence === kind).length, kind).toBeGreaterThan(20);
  });

  it('is "published" only with one of these kinds behind it, "one account" exactly with a person’s own page', () => {
    expect(claims.flatMap((claim) => mislabelled(claim) ?? [])).toEqual([]);
  });
});

describe('a label that says too much, or too little', () => {
  it.each<Claim>([
    { evidence: 'published', source: 'annquiltsblog.blogspot 2025/12' },
    { evidence: 'published', source: 'littleapplequilts.com, terms; needlepointers.com' },
    { evidence: 'published', source: 'assumption of this project' },
    { evidence: 'one account', source: 'Canadian Conservation Institute, Notes 13/14, canada.ca' },
    {
      evidence: 'one account',
      source: 'brightpatchquilts.com; University of Nebraska-Lincoln Extension G1821',
    },
    { evidence: 'one account', source: 'common practice, no source' },
  ])('is found: $evidence, $source', (claim) => expect(mislabelled(claim)).toBeDefined());
});
