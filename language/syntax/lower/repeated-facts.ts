import type * as ast from '../../generated/ast.ts';
import type { LowerContext } from './context.ts';

type Fact =
  | ast.HouseFact
  | ast.HouseWords
  | ast.SeismicFact
  | ast.SeismicWord
  | ast.WeightFact
  | ast.TitleText
  | ast.DateFact
  | ast.UnitsFact
  | ast.FaceFact
  | ast.WallLength;

/** A block says a fact once: of two numbers of storeys, the checks would follow the last and nobody would know. */
export function sayRepeatedFacts(items: readonly { readonly $type: string }[], context: LowerContext): void {
  const seen = new Set<string>();
  for (const item of items) {
    if (!isFact(item)) continue;
    const word = wordOf(item);
    if (seen.has(word)) {
      context.say(
        'repeated-word',
        `\`${word}\` is given twice in this block; the last one counts. Delete one.`,
        context.span(item),
        { severity: 'warning' },
      );
    }
    seen.add(word);
  }
}

const wordsOfKind: Readonly<Record<Fact['$type'], string | undefined>> = {
  HouseFact: undefined,
  HouseWords: undefined,
  SeismicFact: undefined,
  SeismicWord: undefined,
  WeightFact: undefined,
  TitleText: undefined,
  DateFact: undefined,
  UnitsFact: 'units',
  FaceFact: 'face',
  WallLength: 'length',
};

const isFact = (item: { readonly $type: string }): item is Fact => item.$type in wordsOfKind;

const wordOf = (fact: Fact): string => ('key' in fact ? fact.key : (wordsOfKind[fact.$type] ?? fact.$type));
