import type { Family, QuiltCase } from '../../casebook/model.ts';
import type { UnitState } from '../../casebook/scales.ts';
import { whole } from '../../quantities/rounding.ts';
import type { Block, Facts, Section } from '../model.ts';
import { clean, counted, listed, sentence, sentenceCase } from '../phrases.ts';
import { STATE_LOOKS } from '../pictures/picture.ts';
import type { Writing } from '../writing.ts';
import { foundMap } from './quilt-pictures.ts';

type Row = Facts['rows'][number];

/** The quilt and its condition as found: a table of what a client would ask about, and the map. */
export function conditionSection(writing: Writing, title: string): Section {
  const map = foundMap(writing, 'found');
  return {
    title,
    blocks: [
      { kind: 'facts', caption: 'The quilt as we found it', rows: conditionRows(writing) },
      ...(map === undefined ? [] : [{ kind: 'picture', picture: map } satisfies Block]),
    ],
  };
}

/** Every row is always there; what nobody knows says so. */
export function conditionRows(writing: Writing): Row[] {
  return [
    { name: 'What it is', text: whatItIs(writing) },
    { name: 'Its age', text: age(writing.situation.quiltCase, writing) },
    { name: 'Damage', text: damage(writing) },
    { name: 'Seams', text: seams(writing) },
    { name: 'Fabrics', text: fabrics(writing) },
    { name: 'Back', text: backing(writing) },
    { name: 'Filling', text: filling(writing) },
    { name: 'Held together by', text: joining(writing) },
    { name: 'Edge', text: edge(writing) },
    ...hazards(writing),
    { name: 'How we saw it', text: seen(writing) },
  ];
}

function whatItIs(writing: Writing): string {
  const { size, construction } = writing.situation.quiltCase.quilt;
  const made = construction === undefined ? 'how it is made is not known' : writing.finding('construction');
  const weight = writing.finding('weight');
  return sentenceCase(
    `${made}; ${writing.length(size.width)} wide and ${writing.length(size.height)} high${weight === 'not known' ? '' : `; weight ${weight}`}.`,
  );
}

function age({ quilt }: QuiltCase, writing: Writing): string {
  if (quilt.made?.about === undefined) return 'Not known.';
  const sure = quilt.made.sure === undefined ? '' : `, ${writing.finding('made_sure')}`;
  return `Made in or around ${quilt.made.about}${sure}.`;
}

function damage(writing: Writing): string {
  const { groups, total } = writing.situation.quilt;
  const counts = new Map<string, number>();
  for (const { state, count } of groups)
    if (state !== 'sound' && count > 0)
      counts.set(STATE_LOOKS[state].words, (counts.get(STATE_LOOKS[state].words) ?? 0) + count);
  if (groups.every(({ state }) => state === 'unseen')) return 'Not known: its parts have not been looked at.';
  const [of] = [writing.units(total)];
  if (counts.size === 0) return `None seen in ${of}.`;
  const parts = [...counts].map(([words, count]) => `${whole(count)} ${words}`);
  return [`Of ${of}: ${listed(parts)}.`, ...besides(writing), lost(writing)].join(' ');
}

/** What some of them bear as well: each is counted once, by its gravest mark. */
function besides({ situation }: Writing): string[] {
  const { also = [] } = situation.quiltCase.survey;
  const parts = (Object.keys(STATE_LOOKS) as UnitState[]).flatMap((state) => {
    const places = also.filter((mark) => mark.state === state).map(({ at }) => at);
    return places.length === 0 ? [] : [`${STATE_LOOKS[state].words} (${listed(places)})`];
  });
  return parts.length === 0 ? [] : [`Some of these are ${listed(parts)} as well.`];
}

function lost(writing: Writing): string {
  if (writing.facts['finding.loss'] === 0) return 'No cloth is lost.';
  const share = writing.finding('loss');
  return share === 'not known' ? 'How much of the top is lost is not known.' : `Lost: ${share} of the top.`;
}

function seams(writing: Writing): string {
  const { inspected, open, thread, cloth, allowance } = writing.situation.quilt.joins;
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

function fabrics(writing: Writing): string {
  const { families } = writing.situation.quilt;
  const stated: Readonly<Record<string, Family>> = writing.situation.quiltCase.survey.families ?? {};
  const each = Object.values(families).map((family) => {
    const name = clean(stated[family.letter]?.name ?? `fabric ${family.letter}`);
    const dye = family.selfDestructing === true ? ', with a dye that eats its own cloth' : '';
    return `${name}: ${writing.grade(family.fragility)}${dye}`;
  });
  const whole = `On the whole the top is ${writing.finding('governing_fragility')}.`;
  if (writing.finding('governing_fragility') === 'not known' && each.length === 0)
    return 'Not known: nobody has graded the cloth.';
  return each.length === 0 ? whole : `${sentenceCase(each.join('; '))}. ${whole}`;
}

function backing(writing: Writing): string {
  const { backing: back } = writing.situation.quiltCase.quilt;
  if (back?.kind === 'none') return 'It has none.';
  const grade = writing.finding('backing_fragility');
  const damaged = writing.finding('backing_damaged');
  if (grade === 'not known' && damaged === 'not known') return 'Not known.';
  return `${sentenceCase(grade)}; share that is damaged: ${damaged}.`;
}

function filling(writing: Writing): string {
  const { batting } = writing.situation.quiltCase.quilt;
  if (batting?.kind === 'none') return 'It has none.';
  if (batting?.kind === undefined || batting.kind === 'unknown') return 'Not known.';
  const fibre = batting.fibre === undefined || batting.fibre === 'unknown' ? '' : `${batting.fibre}, `;
  const moved =
    batting.migrated === undefined ? '' : `; moved over ${writing.finding('batting_migrated')} of the quilt`;
  return sentenceCase(sentence(`${fibre}${writing.finding('batting_kind')}${moved}`));
}

function joining(writing: Writing): string {
  const { joining: held } = writing.situation.quiltCase.quilt;
  if (held?.kind === undefined) return 'Not known.';
  if (held.kind === 'none') return 'Nothing but its edge.';
  const missing = held.missing === undefined ? '' : `; ${writing.finding('joining_missing')} of them gone`;
  return sentenceCase(sentence(`${writing.finding('joining_kind')}${missing}`));
}

function edge(writing: Writing): string {
  const { binding } = writing.situation.quiltCase.quilt;
  if (binding === undefined) return 'Not known.';
  return `${sentenceCase(writing.finding('binding_fragility'))}; worn through over ${writing.finding('binding_worn')} of its length.`;
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

function hazards(writing: Writing): Row[] {
  const present = HAZARDS.filter((id) => writing.facts[`finding.${id}`] === true).map(
    (id) => writing.papers.vocabulary.findings.get(id)?.label ?? id,
  );
  for (const [id, least] of GRADED) {
    const fact = writing.facts[`finding.${id}`];
    if (typeof fact === 'number' && fact >= least)
      present.push(`${writing.papers.vocabulary.findings.get(id)?.label ?? id}: ${writing.finding(id)}`);
  }
  const mould = writing.facts['finding.mould_area'];
  if (typeof mould === 'number' && mould > 0) present.push(`mould on ${writing.finding('mould_area')}`);
  return present.length === 0
    ? []
    : [{ name: 'To be careful of', text: sentenceCase(sentence(present.join('; '))) }];
}

function seen(writing: Writing): string {
  const { survey } = writing.situation.quiltCase;
  const on = survey.on === undefined ? '' : ` on ${writing.date(survey.on)}`;
  if (survey.seen === 'photos')
    return `In photographs${on}. Photographs cannot show how strong the cloth is.`;
  const unchecked = Object.entries(survey.known_by ?? {}).flatMap(([id, how]) => {
    const label = writing.papers.vocabulary.findings.get(id)?.label ?? `its ${id}`;
    return [`${label} (${how === 'told' ? 'told to us' : 'from pictures'})`];
  });
  const rest = unchecked.length === 0 ? '' : ` Not checked in hand yet: ${listed(unchecked)}.`;
  return `In hand${on}.${rest}`;
}

/** Photographs where their files are; the others by name. */
export function photoSection(writing: Writing): Section[] {
  const { photos } = writing.papers;
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
