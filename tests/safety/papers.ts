import type { QuiltCase } from '../../src/casebook/model.ts';
import { FORMATS } from '../../src/cli/commands/sheet.ts';
import { decideQuick } from '../../src/decision/decide.ts';
import { DocumentContext } from '../../src/documents/document-context.ts';
import { KINDS } from '../../src/documents/kinds/all.ts';
import { printAnswer } from '../../src/documents/terminal/answer.ts';
import { context } from '../decision/shipped.ts';
import { papersOf } from '../documents/papers.ts';

/** Every text a person is given of one case: the answer, on the terminal and as data, and each paper that can be written. */
export async function textsOf(quiltCase: QuiltCase): Promise<Readonly<Record<string, string>>> {
  const decision = decideQuick(quiltCase, context);
  const doc = new DocumentContext(await papersOf(decision, { contact: undefined }));
  const papers = KINDS.filter((kind) => kind.unfit(doc) === undefined).map(
    (kind) => [kind.name, FORMATS.text(kind.write(doc))] as const,
  );
  return {
    terminal: printAnswer(decision.answer, quiltCase, { color: false, width: 100 }),
    json: JSON.stringify(decision.answer),
    ...Object.fromEntries(papers),
  };
}
