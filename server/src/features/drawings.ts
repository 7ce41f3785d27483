import { type DrawingsAnswer, type DrawingsParams, drawingsRequest } from '../../../language/protocol/requests.ts';
import type { Feature } from '../context.ts';
import { inUnits } from '../in-units.ts';

/** All sheets of the text as it stands, saved or not. */
export const drawings: Feature = {
  capabilities: {},
  register(context) {
    context.connection.onRequest<DrawingsAnswer, void>(
      drawingsRequest,
      async ({ uri, only, units, sheet }: DrawingsParams) => {
        // Drawing is loaded by the first who asks for it.
        const { drawingsOf, printedSheetsOf } = await import('../drawings-of.ts');
        return context.guarded('drawing', failed, (): DrawingsAnswer => {
          const analysis = context.analyses.of(uri);
          if (!analysis) return failed;
          if (analysis.layout.walls.length === 0)
            return { kind: 'refused', reason: 'There is no wall to draw in this file.' };
          const shown = inUnits(analysis, units);
          const sheets = sheet === undefined ? drawingsOf(shown, only) : printedSheetsOf(shown, sheet, only);
          return sheets.length > 0 ? { kind: 'drawings', sheets } : { kind: 'refused', reason: 'It is drawn no more.' };
        });
      },
    );
    return undefined;
  },
};

const failed: DrawingsAnswer = { kind: 'refused', reason: 'Sillwright failed on this text; see Output, Sillwright.' };
