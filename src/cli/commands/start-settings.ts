import type { StudioSettings } from '../../estimates/price.ts';

interface Setting {
  readonly name: string;
  /** What it does, one line an entry. */
  readonly about: readonly string[];
  /** Its value as written; a setting that only waits for one has an example behind a comment mark. */
  readonly written: string;
  readonly set: boolean;
}

/** Every setting of studio.yaml, with what a new studio starts from. A test holds the list equal to the schema. */
export const settingsOf = (usual: StudioSettings): readonly Setting[] => [
  {
    name: 'studio',
    about: ['What you call your studio. It heads every document.'],
    written: 'Mending room',
    set: false,
  },
  {
    name: 'contact',
    about: ['How clients reach you; it stands under every letter.'],
    written: 'the address, telephone or mail you want printed',
    set: false,
  },
  {
    name: 'logo',
    about: ['A picture for the head of documents, as a file beside this one.'],
    written: 'logo.svg',
    set: false,
  },
  {
    name: 'currency',
    about: ['The sign or word that stands with every price.'],
    written: `'${usual.currency}'`,
    set: true,
  },
  {
    name: 'units',
    about: ['How lengths are shown: inches or metric. Case files may use either.'],
    written: usual.units,
    set: true,
  },
  {
    name: 'language',
    about: ['The language of documents, as a browser names it.'],
    written: 'en',
    set: false,
  },
  {
    name: 'rate_per_hour',
    about: ['What an hour of work costs. Without the line: the rate in rules/figures.yaml.'],
    written: String(usual.ratePerHour),
    set: false,
  },
  {
    name: 'minimum',
    about: ['The smallest job you take on, in money.'],
    written: String(usual.minimum),
    set: false,
  },
  {
    name: 'rounding',
    about: ['Prices are rounded to a multiple of this.'],
    written: String(usual.rounding),
    set: false,
  },
  {
    name: 'deposit',
    about: ['Share of the price asked before work begins.'],
    written: `${usual.deposit * 100} %`,
    set: false,
  },
  {
    name: 'valid_days',
    about: ['For how many days a proposal stands.'],
    written: '30',
    set: false,
  },
  {
    name: 'washing',
    about: [
      'museum: a quilt of several fabrics is never washed.',
      'studio: it may be, once every colour has passed every test.',
    ],
    written: 'museum',
    set: true,
  },
];

/** studio.yaml for a new studio: every setting explained, the usual ones set, the others ready to be. */
export const studioYaml = (usual: StudioSettings): string =>
  [
    '# Your studio. A line that begins with # is only a note: take the mark away to use it.',
    ...settingsOf(usual).map(({ name, about, written, set }) =>
      ['', ...about.map((line) => `# ${line}`), `${set ? '' : '# '}${name}: ${written}`].join('\n'),
    ),
    '',
  ].join('\n');
