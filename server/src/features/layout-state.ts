import type { Analysis } from '../../../language/analysis.ts';
import type { FileId } from '../../../language/domain/model/source.ts';
import {
  type CheckAllParams,
  type CountsOfLayout,
  checkAllRequest,
  type LayoutCounts,
  type LayoutState,
  layoutState,
} from '../../../language/protocol/requests.ts';
import type { Feature, ServerContext } from '../context.ts';
import { otherMessages } from '../scheduler.ts';

/** Counts of findings: for the status bar after each analysis, and for many layouts at once when asked. */
export const layoutCounts: Feature = {
  capabilities: {},
  register(context) {
    const sent = new Map<string, string>();
    context.connection.onRequest<readonly LayoutCounts[], void>(checkAllRequest, async ({ uris }: CheckAllParams) => {
      const all: LayoutCounts[] = [];
      for (const uri of uris) {
        all.push(countsOfLayout(context, uri));
        await otherMessages();
      }
      return all;
    });
    function tell(uri: FileId): void {
      // Of a text that is being edited it is told when it stands.
      const analysis =
        context.documents.get(uri) && context.analyses.isMade(uri) ? context.analyses.of(uri) : undefined;
      if (!analysis) return;
      const { rules, label } = analysis.basis;
      const state: LayoutState = { uri, rules, label, counts: countsOf(analysis) };
      const text = JSON.stringify(state);
      if (sent.get(uri) === text) return;
      sent.set(uri, text);
      void context.connection.sendNotification(layoutState, state);
    }
    return {
      analysed(roots) {
        // The findings go out first, all of them: what the editor cannot take at once is written a little later.
        setTimeout(() => {
          for (const uri of roots) context.guarded('counting the findings', undefined, () => tell(uri));
        }, behindTheFindings);
      },
      closed: (uri) => void sent.delete(uri),
    };
  },
};

/** In milliseconds; nobody sees that the counts are so late. */
const behindTheFindings = 30;

function countsOfLayout(context: ServerContext, uri: string): LayoutCounts {
  const analysis = context.analyses.of(uri);
  // A layout that nobody has open is not kept.
  if (!context.documents.get(uri)) context.analyses.forget(uri);
  if (!analysis) return { uri, reason: 'Sillwright failed on this text; see Output, Sillwright.' };
  if (analysis.layout.walls.length === 0) return { uri, reason: 'no wall in it' };
  return { uri, counts: countsOf(analysis) };
}

function countsOf({ basis }: Analysis): CountsOfLayout {
  const { stops, errors, warnings, infos, notChecked, assumed } = basis.counts;
  return { stops, errors, warnings, infos, notChecked, assumed };
}
