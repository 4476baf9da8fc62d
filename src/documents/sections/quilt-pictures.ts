import type { Action, UnitState } from '../../casebook/scales.ts';
import type { Option } from '../../decision/situation.ts';
import { placesOf } from '../../plans/model.ts';
import type { DocumentContext } from '../document-context.ts';
import type { Section } from '../model.ts';
import { fastenings } from '../pictures/fastenings.tsx';
import { holeMap } from '../pictures/hole-map.tsx';
import { type Picture, PLANNED_LOOKS, STATE_LOOKS, UNPLACED } from '../pictures/picture.ts';
import { unitMap } from '../pictures/unit-map.tsx';
import { FOUND } from '../tally.ts';

const unitWords = ({ situation }: DocumentContext): readonly [string, string] =>
  situation.quilt.piecework.kind === 'survey grid' ? ['field', 'fields'] : ['block', 'blocks'];

/** The map as found; undefined where the quilt was not mapped. */
export function foundMap(doc: DocumentContext, id: string): Picture | undefined {
  const { quilt } = doc.situation;
  const kinds = new Map<string, UnitState>();
  for (const { state, where } of quilt.groups) for (const at of where ?? []) kinds.set(at, state);
  if (kinds.size === 0) return undefined;
  return unitMap({
    id,
    title: 'The quilt as we found it, seen from the front',
    piecework: quilt.piecework,
    kinds,
    rest: 'sound',
    looks: STATE_LOOKS,
    unit: unitWords(doc),
    open: quilt.joins.openAt,
    of: FOUND,
  });
}

/** The map as planned, by the recommendation or another plan; undefined where there is no plan, no map, or nothing is done to any unit. */
export function plannedMap(
  doc: DocumentContext,
  id: string,
  option: Option | undefined = doc.recommended,
  title = 'What would be done, block by block',
): Picture | undefined {
  if (option === undefined || option.plan.treatment === 'leave') return undefined;
  const { actions } = option.plan;
  const kinds = new Map<string, Action | typeof UNPLACED>();
  for (const treated of actions) {
    const { group, action } = treated;
    const alike = actions.filter((other) => other.action === action && other.group.state === group.state);
    const places = placesOf(alike, actions);
    if (places === undefined) for (const at of group.among ?? []) kinds.set(at, UNPLACED);
    else if (action !== 'keep') for (const at of places) kinds.set(at, action);
  }
  if (kinds.size === 0) return undefined;
  return unitMap({
    id,
    title,
    piecework: option.plan.quilt.piecework,
    kinds,
    rest: 'keep',
    looks: PLANNED_LOOKS,
    unit: unitWords(doc),
    open: [],
    ...([...kinds.values()].includes(UNPLACED) ? {} : { of: option.plan.id }),
  });
}

/** Where the plan's new holes fall; undefined where the quilt was not mapped or there are none. */
export function plannedHoles(doc: DocumentContext, id: string): Picture | undefined {
  const option = doc.recommended;
  const byUnit = option?.estimator.holes().byUnit;
  if (option === undefined || byUnit === undefined || Object.values(byUnit).every((count) => count === 0))
    return undefined;
  return holeMap(id, 'Where the new holes in old cloth would fall', option.plan.quilt.piecework, byUnit);
}

/** The plan's lines, ties or small stitches drawn on the quilt. */
export function plannedFastenings(
  doc: DocumentContext,
  id: string,
  option: Option | undefined = doc.recommended,
  title = 'Where the layers would be held together',
): Picture | undefined {
  const plan = option?.plan;
  if (plan === undefined || plan.joining === 'none') return undefined;
  return fastenings(id, title, plan.quilt.piecework, plan);
}

/** A section of those of the pictures that there are; none where there are none. */
export function drawnSection(title: string, pictures: readonly (Picture | undefined)[]): Section[] {
  const drawn = pictures.filter((picture) => picture !== undefined);
  return drawn.length === 0 ? [] : [{ title, blocks: [{ kind: 'pictures', pictures: drawn }] }];
}
