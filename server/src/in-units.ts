import type { Analysis } from '../../language/analysis.ts';
import type { LengthUnits } from '../../language/domain/model/layout.ts';
import type { PaneUnits } from '../../language/protocol/pane-choices.ts';

/**
 * The same house, labelled in other units; its text stays as it is. Findings keep the words in which they were found. The same
 * analysis gives the same object, so that what is kept for it is kept.
 */
export function inUnits(analysis: Analysis, units: PaneUnits | undefined): Analysis {
  if (units === undefined || units === 'as-written' || units === analysis.layout.title.units) return analysis;
  const known = relabelled.get(analysis);
  if (known?.layout.title.units === units) return known;
  const other = withUnits(analysis, units);
  relabelled.set(analysis, other);
  return other;
}

const relabelled = new WeakMap<Analysis, Analysis>();

function withUnits(analysis: Analysis, units: LengthUnits): Analysis {
  const { layout } = analysis;
  return { ...analysis, layout: { ...layout, title: { ...layout.title, units } } };
}
