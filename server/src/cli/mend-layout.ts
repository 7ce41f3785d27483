import type { Analysis } from '../../../language/analysis.ts';
import type { TextPlace } from '../../../language/domain/documents/findings-report.ts';
import type { RuleId } from '../../../language/domain/rules/finding.ts';
import { mendAnalysis } from '../../../language/mend.ts';
import { type OpenLayout, placesIn } from './open-layout.ts';

/** A mend that was made, with the place of its finding before it. */
export interface Mend {
  readonly rule: RuleId;
  readonly title: string;
  /** Wants a person's eye. */
  readonly review: boolean;
  readonly place: TextPlace | undefined;
}

export interface Mended {
  readonly analysis: Analysis;
  readonly mends: readonly Mend[];
}

/** Makes every mend that helps, see `mendAnalysis`; those that want a person's eye say so. */
export function mendLayout({ host, analyser, analysis: start }: OpenLayout, rules: readonly string[]): Mended {
  const texts = {
    replaceText: (file: string, text: string) => host.replaceText(file, text),
    analyse: (file: string) => analyser.analyse(file),
  };
  const { analysis, mends } = mendAnalysis(texts, start, { rules, trust: 'review' });
  return {
    analysis,
    mends: mends.map(({ finding, fix, before }) => ({
      rule: finding.rule,
      title: fix.title,
      review: fix.trust === 'review',
      place: placesIn(before)(finding.span),
    })),
  };
}
