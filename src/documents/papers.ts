import type { Decision } from '../decision/decide.ts';
import type { Figures } from '../figures/model.ts';
import type { Vocabulary } from '../findings/vocabulary.ts';
import type { MeasureSystem } from '../quantities/measure.ts';
import type { Texts } from './texts/texts.ts';

/** How a studio names itself and writes figures, from studio.yaml. */
export interface StudioCard {
  readonly name: string | undefined;
  readonly contact: string | undefined;
  /** A picture as a data address. */
  readonly logo: string | undefined;
  /** BCP 47 tag for dates. */
  readonly language: string;
  readonly units: MeasureSystem;
  readonly currency: string;
  readonly validDays: number;
}

/** A photograph named in a case. `data` is its data address; undefined where there is no such picture file. */
export interface Photo {
  readonly file: string;
  readonly of: string | undefined;
  readonly when: string | undefined;
  readonly data: string | undefined;
}

/** Everything a document is made from. */
export interface Papers {
  readonly decision: Decision;
  readonly vocabulary: Vocabulary;
  readonly figures: Figures;
  readonly texts: Texts;
  readonly studio: StudioCard;
  readonly photos: readonly Photo[];
}
