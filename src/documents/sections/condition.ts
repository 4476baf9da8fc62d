import type { Family, QuiltCase } from '../../casebook/model.ts';
import { whole } from '../../quantities/rounding.ts';
import type { DocumentContext } from '../document-context.ts';
import type { Block, Facts, Section } from '../model.ts';
import { clean, counted, listed, sentence, sentenceCase } from '../phrases.ts';
import { STATE_LOOKS } from '../pictures/picture.ts';
import { foundMap } from './quilt-pictures.ts';

type Row = Facts['rows'][number];

/** The quilt and its condition as found: a table of what a client would ask about, and the map. */
export function conditionSection(doc: DocumentContext, title: string): Section {
  const map = foundMap(doc, 'found');
  return {
    title,
    blocks: [
      { kind: 'facts', caption: 'The quilt as we found it', rows: conditionRows(doc) },
      ...(map === undefined ? [] : [{ kind: 'picture', picture: map } satisfies Block]),
    ],
  };
}

/** Every row is always there; what nobody knows says so. */
export function conditionRows(doc: DocumentContext): Row[] {
  return [
    { name: 'What it is', text: whatItIs(doc) },
    { name: 'Its age', text: age(doc.situation.quiltCase, doc) },
    { name: 'Damage', text: damage(doc) },
    { name: 'Seams', text: seams(doc) },
    { name: 'Fabrics', text: fabrics(doc) },
    { name: 'Back', text: backing(doc) },
    { name: 'Filling', text: filling(doc) },
    { name: 'Held together by', text: joining(doc) },
    { name: 'Edge', text: edge(doc) },
    ...hazards(doc),
    { name: 'How we saw it', text: seen(doc) },
  ];
}

function whatItIs(doc: DocumentContext): string {
  const { size, construction } = doc.situation.quiltCase.quilt;
  const made = construction === undefined ? 'how it is made is not known' : doc.finding('construction');
  const weight = doc.finding('weight');
  return sentenceCase(
    `${made}; ${doc.length(size.width)} wide and ${doc.length(size.height)} high${weight === 'not known' ? '' : `; weight ${weight}`}.`,
  );
}

function age({ quilt }: QuiltCase, doc: DocumentContext): string {
  if (quilt.made?.about === undefined) return 'Not known.';
  const sure = quilt.made.sure === undefined ? '' : `, ${doc.finding('made_sure')}`;
  return `Made in or around ${quilt.made.about}${sure}.`;
}

function damage(doc: DocumentContext): string {
  const { groups, total } = doc.situation.quilt;
  const counts = new Map<string, number>();
  for (const { state, count } of groups)
    if (state !== 'sound' && count > 0)
      counts.set(STATE_LOOKS[state].words, (counts.get(STATE_LOOKS[state].words) ?? 0) + count);
  if (groups.every(({ state }) => state === 'unseen')) return 'Not known: its parts have not been looked at.';
  const [of] = [doc.units(total)];
  if (counts.size === 0) return `None seen in ${of}.`;
  const parts = [...counts].map(([words, count]) => `${whole(count)} ${words}`);
  return `Of ${of}: ${listed(parts)}. ${lost(doc)}`;
}

function lost(doc: DocumentContext): string {
  if (doc.facts['finding.loss'] === 0) return 'No cloth is lost.';
  const share = doc.finding('loss');
  return share === 'not known' ? 'How much of the top is lost is not known.' : `Lost: ${share} of the top.`;
}

function seams(doc: DocumentContext): string {
  const { inspected, open, thread, cloth, allowance } = doc.situation.quilt.joins;
  if (inspected === undefined || open === undefined) return 'Not known: they have not been counted.';
  if (open === 0) return `Of ${counted(inspected, 'seam')} looked at, none is open.`;
  const causes = [
    [thread, 'the thread gave way'],
    [cloth, 'the cloth gave way'],
    [allowance, 'the edge inside the seam is gone'],
  ] as const;
  const told = causes.flatMap(([count, words]) =>
    count === undefined || count === 0 ? [] : [`in ${whole(count)} ${words}`],
  );
  return `Of ${counted(inspected, 'seam')} looked at, ${whole(open)} ${open === 1 ? 'is' : 'are'} open${told.length === 0 ? '' : `: ${listed(told)}`}.`;
}

function fabrics(doc: DocumentContext): string {
  const { families } = doc.situation.quilt;
  const stated: Readonly<Record<string, Family>> = doc.situation.quiltCase.survey.families ?? {};
  const each = Object.values(families).map((family) => {
    const name = clean(stated[family.letter]?.name ?? `fabric ${family.letter}`);
    const dye = family.selfDestructing === true ? ', with a dye that eats its own cloth' : '';
    return `${name}: ${doc.grade(family.fragility)}${dye}`;
  });
  const whole = `On the whole the top is ${doc.finding('governing_fragility')}.`;
  if (doc.finding('governing_fragility') === 'not known' && each.length === 0)
    return 'Not known: nobody has graded the cloth.';
  return each.length === 0 ? whole : `${sentenceCase(each.join('; '))}. ${whole}`;
}

function backing(doc: DocumentContext): string {
  const { backing: back } = doc.situation.quiltCase.quilt;
  if (back?.kind === 'none') return 'It has none.';
  const grade = doc.finding('backing_fragility');
  const damaged = doc.finding('backing_damaged');
  if (grade === 'not known' && damaged === 'not known') return 'Not known.';
  return `${sentenceCase(grade)}; share that is damaged: ${damaged}.`;
}

function filling(doc: DocumentContext): string {
  const { batting } = doc.situation.quiltCase.quilt;
  if (batting?.kind === 'none') return 'It has none.';
  if (batting?.kind === undefined || batting.kind === 'unknown') return 'Not known.';
  const fibre = batting.fibre === undefined || batting.fibre === 'unknown' ? '' : `${batting.fibre}, `;
  const moved =
    batting.migrated === undefined ? '' : `; moved over ${doc.finding('batting_migrated')} of the quilt`;
  return sentenceCase(sentence(`${fibre}${doc.finding('batting_kind')}${moved}`));
}

function joining(doc: DocumentContext): string {
  const { joining: held } = doc.situation.quiltCase.quilt;
  if (held?.kind === undefined) return 'Not known.';
  if (held.kind === 'none') return 'Nothing but its edge.';
  const missing = held.missing === undefined ? '' : `; ${doc.finding('joining_missing')} of them gone`;
  return sentenceCase(sentence(`${doc.finding('joining_kind')}${missing}`));
}

function edge(doc: DocumentContext): string {
  const { binding } = doc.situation.quiltCase.quilt;
  if (binding === undefined) return 'Not known.';
  return `${sentenceCase(doc.finding('binding_fragility'))}; worn through over ${doc.finding('binding_worn')} of its length.`;
}

/** Findings that may harm people or other textiles: told where they are there. */
const HAZARDS = [
  'live_pests',
  'rodent_waste',
  'sewage_or_fuel',
  'damp',
  'old_green_or_pesticide',
  'asthma_or_mould_allergy',
] as const;
/** Told where they are as bad as this, an index into their options. */
const GRADED = [
  ['pest_traces', 1],
  ['odour', 3],
] as const;

function hazards(doc: DocumentContext): Row[] {
  const present = HAZARDS.filter((id) => doc.facts[`finding.${id}`] === true).map(
    (id) => doc.papers.vocabulary.findings.get(id)?.label ?? id,
  );
  for (const [id, least] of GRADED) {
    const fact = doc.facts[`finding.${id}`];
    if (typeof fact === 'number' && fact >= least)
      present.push(`${doc.papers.vocabulary.findings.get(id)?.label ?? id}: ${doc.finding(id)}`);
  }
  const mould = doc.facts['finding.mould_area'];
  if (typeof mould === 'number' && mould > 0) present.push(`mould on ${doc.finding('mould_area')}`);
  return present.length === 0
    ? []
    : [{ name: 'To be careful of', text: sentenceCase(sentence(present.join('; '))) }];
}

function seen(doc: DocumentContext): string {
  const { survey } = doc.situation.quiltCase;
  const on = survey.on === undefined ? '' : ` on ${doc.date(survey.on)}`;
  if (survey.seen === 'photos')
    return `In photographs${on}. Photographs cannot show how strong the cloth is.`;
  return `In hand${on}.`;
}

/** Photographs where their files are; the others by name. */
export function photoSection(doc: DocumentContext): Section[] {
  const { photos } = doc.papers;
  if (photos.length === 0) return [];
  const about = ({ of, when, file }: (typeof photos)[number]): string =>
    clean([of ?? file, ...(when === undefined ? [] : [when])].join(', '));
  const absent = photos.filter(({ data }) => data === undefined);
  return [
    {
      title: 'Photographs',
      blocks: [
        ...photos.flatMap((photo): Block[] =>
          photo.data === undefined
            ? []
            : [
                {
                  kind: 'photo',
                  data: photo.data,
                  alt: `Photograph: ${about(photo)}`,
                  caption: sentenceCase(about(photo)),
                },
              ],
        ),
        ...(absent.length === 0
          ? []
          : [
              {
                kind: 'list',
                items: absent.map(
                  (photo) =>
                    `${sentenceCase(about(photo))}: not in the folder of the case (${clean(photo.file)})`,
                ),
              } as const,
            ]),
      ],
    },
  ];
}
