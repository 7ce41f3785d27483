import type * as ast from '../../generated/ast.ts';
import type { PanelWords } from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { collect } from './stretches.ts';

/** What a `panel` line says of the panel, there or under `typical`. Its place and `proposed` are the line's own. */
export function panelWords(attributes: readonly ast.PanelAttribute[], context: LowerContext, what: string): PanelWords {
  const { words, set } = collect<{ -readonly [Key in keyof PanelWords]: PanelWords[Key] }>(context);
  for (const item of attributes) {
    switch (item.$type) {
      case 'PanelBoard':
        set('board', { kind: item.board, thick: context.length(item.thick, `thickness of ${what}`) }, item.board, item);
        break;
      case 'PanelNails':
        set(
          'nails',
          {
            penny: item.penny,
            kind: item.nailKind,
            edge: context.length(item.edge, `edge nailing of ${what}`),
            field: context.length(item.field, `field nailing of ${what}`),
          },
          'nails',
          item,
        );
        break;
      case 'PanelNailers':
        set('nailers', nailersOf(item, context, what), 'nailers', item);
        break;
      case 'PanelVentHoles':
        set(
          'ventHoles',
          item.none
            ? 'none'
            : { diameter: context.length(item.diameter, `vent holes of ${what}`), pattern: item.holes },
          'vent-holes',
          item,
        );
        break;
      case 'PanelFlatBlock':
        set('flatBlock', { size: context.size(item.size, `flat block of ${what}`) }, 'flat-block', item);
        break;
      case 'PanelHeight':
        set('height', context.length(item.height, `height of ${what}`), 'height', item);
        break;
    }
  }
  return words;
}

function nailersOf(item: ast.PanelNailers, context: LowerContext, what: string): PanelWords['nailers'] {
  if (item.none) return 'none';
  const { nails } = item;
  if (nails?.spaced || nails?.verified || nails?.state) {
    context.say(
      'wrong-kind',
      `Nails of nailers are counted: \`nails 4 16d\` for each block. What else stands there is not read.`,
      context.span(nails),
      { severity: 'warning' },
    );
  }
  return {
    size: context.size(item.size, `nailers of ${what}`),
    nails: nails && {
      count: nails.count,
      penny: nails.penny,
      ...(nails.nailKind ? { kind: nails.nailKind } : {}),
    },
    clear: item.clear,
  };
}
