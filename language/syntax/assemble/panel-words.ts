import type { PanelNailers } from '../../domain/model/design.ts';
import type { Tags } from '../../domain/model/layout.ts';
import { noTags } from '../../domain/model/layout.ts';
import type { PanelWords } from '../drafts.ts';

/**
 * A panel's own words over those of `typical panel`, part by part. A nail is named by its size and kind together: whoever
 * writes another size says the kind anew, while edge and field spacing go on as typical.
 */
export function overTypicalPanel(typical: PanelWords, own: PanelWords): PanelWords {
  const merged = { ...typical, ...own };
  return {
    ...merged,
    ...(typical.nails && own.nails
      ? {
          nails: {
            ...own.nails,
            edge: own.nails.edge ?? typical.nails.edge,
            field: own.nails.field ?? typical.nails.field,
          },
        }
      : {}),
    ...(typical.nailers && own.nailers ? { nailers: nailersOver(typical.nailers, own.nailers) } : {}),
    ...(typical.flatBlock && own.flatBlock
      ? { flatBlock: { size: own.flatBlock.size ?? typical.flatBlock.size } }
      : {}),
  };
}

function nailersOver(typical: PanelNailers | 'none', own: PanelNailers | 'none'): PanelNailers | 'none' {
  if (typical === 'none' || own === 'none') return own;
  return { size: own.size ?? typical.size, nails: own.nails ?? typical.nails, clear: own.clear };
}

/** Notes and photos of `typical panel` speak of every panel; who and when are the panel's own where it says so. */
export function withTypicalTags(typical: Tags | undefined, own: Tags): Tags {
  if (!typical || typical === noTags) return own;
  return {
    notes: [...typical.notes, ...own.notes],
    photos: [...typical.photos, ...own.photos],
    by: own.by ?? typical.by,
    dated: own.dated ?? typical.dated,
  };
}
