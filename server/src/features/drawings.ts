import { type DrawingsAnswer, drawingsRequest, type LayoutParams } from '../../../language/protocol/requests.ts';
import type { Feature } from '../context.ts';

/** All sheets of the text as it stands, saved or not. */
export const drawings: Feature = {
  capabilities: {},
  register(context) {
    context.connection.onRequest<DrawingsAnswer, void>(drawingsRequest, async ({ uri }: LayoutParams) => {
      // Drawing is loaded by the first who asks for it.
      const { drawingsOf } = await import('../drawings-of.ts');
      return context.guarded('drawing', failed, (): DrawingsAnswer => {
        const analysis = context.analyses.of(uri);
        if (!analysis) return failed;
        if (analysis.layout.walls.length === 0)
          return { kind: 'refused', reason: 'There is no wall to draw in this file.' };
        return { kind: 'drawings', sheets: drawingsOf(analysis) };
      });
    });
    return undefined;
  },
};

const failed: DrawingsAnswer = { kind: 'refused', reason: 'Sillwright failed on this text; see Output, Sillwright.' };
