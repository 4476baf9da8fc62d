import { HAZARD_SIGNS, notingLooks } from '../../casebook/hazards.ts';
import { GRADES } from '../../casebook/scales.ts';
import { highest, lowest } from '../../findings/fact.ts';
import { type FindingDef, factOfOption } from '../../findings/vocabulary.ts';
import type { DocumentContext } from '../document-context.ts';
import type { Block, Section } from '../model.ts';
import { clean, sentence, sentenceCase } from '../phrases.ts';
import { seamEvidence } from '../pictures/seam-evidence.tsx';
import { conditionSection, photoSection } from '../sections/condition.ts';
import { decidedSection } from '../sections/decided.ts';
import { safetySection } from '../sections/safety.ts';
import { frame, type Kind } from './frame.ts';

/** What was seen, measured and told: nothing concluded, nothing advised. Choices on record are told as what was said. */
export const surveyReport: Kind = {
  name: 'survey',
  summary: 'the findings, map and photographs, with nothing concluded',
  questions: false,
  unfit: () => undefined,
  write(doc) {
    const condition = conditionSection(doc, 'At a glance');
    return frame(doc, doc.say('survey.title'), [
      ...safetySection(doc),
      { blocks: [{ kind: 'paragraph', text: doc.say('survey.intro') }] },
      condition,
      looksSection(doc),
      gradesSection(doc),
      ...seamsSection(doc),
      ...findingSections(doc),
      ...photoSection(doc),
      ...decidedSection(doc),
      {
        title: 'What a survey cannot tell',
        blocks: [{ kind: 'paragraph', text: doc.say('survey.limits') }],
      },
    ]);
  },
};

/** Every look at the quilt: who, when, how. */
function looksSection(doc: DocumentContext): Section {
  const { survey, resurveys } = doc.papers.decision.asGiven;
  const rows = [survey, ...resurveys].map((look, index) => ({
    name: index === 0 ? 'First survey' : `Later look ${index}`,
    cells: [
      look.on === undefined ? 'not known' : doc.date(look.on),
      look.by === undefined ? 'not known' : clean(look.by),
      look.seen === 'photos' ? 'photographs' : look.seen === undefined ? 'not known' : 'in hand',
    ],
  }));
  return {
    title: 'Who looked, and when',
    blocks: [{ kind: 'table', caption: 'Looks at the quilt', columns: ['Look', 'Date', 'By', 'How'], rows }],
  };
}

function gradesSection(doc: DocumentContext): Section {
  const { quilt, quiltCase } = doc.situation;
  const stated = quiltCase.survey.families ?? {};
  const families = Object.values(quilt.families);
  const vocabulary = doc.papers.vocabulary.family;
  const said = (id: string, raw: Parameters<DocumentContext['value']>[1]): string => {
    const def = vocabulary.get(id);
    return def === undefined ? 'not known' : doc.sayFact(def, raw);
  };
  const rows = families.map((family) => ({
    name: `${family.letter}: ${clean(stated[family.letter]?.name ?? 'no name')}`,
    cells: [
      family.fibre === 'unknown' ? 'not known' : family.fibre,
      said('fragility', family.fragility),
      said('dye_bleed', family.dyeBleed),
      said('share', family.share),
    ],
  }));
  const table: Block = {
    kind: 'table',
    caption: 'Fabrics and their grades',
    columns: ['Fabric', 'Fibre', 'Grade', 'Colour bleeds', 'Share of the top'],
    rows,
  };
  const spans = families.map(({ fragility }) => fragility);
  const present = GRADES.filter((_, index) =>
    spans.some((span) => lowest(span) <= index && index <= highest(span)),
  );
  const signs = doc.papers.vocabulary.grades
    .filter(({ value }) => present.some((grade) => grade === value))
    .map(({ label, anchors }) => ({
      name: sentenceCase(label),
      text: clean(sentenceCase(anchors.look ?? 'not known')),
    }));
  return {
    title: 'The cloth',
    blocks:
      rows.length === 0
        ? [{ kind: 'paragraph', text: 'Not known: no fabric has been named or graded.' }]
        : [
            table,
            { kind: 'paragraph', text: doc.say('survey.grades') },
            { kind: 'facts', caption: 'Signs of each grade', rows: signs },
          ],
  };
}

function seamsSection(doc: DocumentContext): Section[] {
  const picture = seamEvidence('seams', 'The seams we looked at', doc.situation.quilt.joins);
  return picture === undefined ? [] : [{ title: 'The seams', blocks: [{ kind: 'picture', picture }] }];
}

/** What it was appraised at is between the owner and the appraiser. */
const PRIVATE = new Set(['monetary_value']);

/** A hazard that was dealt with: what was seen of it and when, then what was done, by whom, and who confirms it. */
function dealtWith(doc: DocumentContext, def: FindingDef): string | undefined {
  const { asGiven } = doc.papers.decision;
  const sign = HAZARD_SIGNS.find(({ finding }) => finding === def.id);
  const done = asGiven.treated?.filter(({ hazard }) => hazard === sign?.hazard) ?? [];
  if (sign === undefined || done.length === 0) return undefined;
  const seen = notingLooks(asGiven, sign.hazard).flatMap(({ on, findings }) => {
    const value = findings[def.id];
    if (value === undefined || sign.size(value) === 0) return [];
    const said = doc.sayFact(def, typeof value === 'string' ? factOfOption(def, value) : value);
    return [`${said}, noted ${on === undefined ? 'on a day not known' : `on ${doc.date(on)}`}`];
  });
  if (seen.length === 0) return undefined;
  const told = done.map(
    ({ how, by, on, confirmed_by }) =>
      `dealt with on ${doc.date(on)} by ${clean(by)}: ${clean(how)}; confirmed by ${clean(confirmed_by)}`,
  );
  return [...seen, ...told].map((each) => sentence(sentenceCase(each))).join(' ');
}

/** Every finding somebody could state, group by group; what is worked out stands above. */
function findingSections(doc: DocumentContext): Section[] {
  const { vocabulary } = doc.papers;
  const stated = [...vocabulary.findings.values()].filter(
    ({ id, per, at }) => per === 'quilt' && at !== 'derived' && !PRIVATE.has(id),
  );
  const row = (def: FindingDef) => ({
    name: sentenceCase(def.label),
    text: dealtWith(doc, def) ?? sentenceCase(clean(doc.finding(def.id))),
  });
  return vocabulary.groups.flatMap(({ id, title }) => {
    const own = stated.filter(({ group }) => group === id);
    return own.length === 0
      ? []
      : [
          {
            title: sentenceCase(title),
            blocks: [{ kind: 'facts', caption: title, rows: own.map(row) } as const],
          },
        ];
  });
}
