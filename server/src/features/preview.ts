import type { FileId } from '../../../language/domain/model/source.ts';
import type { PaneUnits } from '../../../language/protocol/pane-choices.ts';
import {
  type PartName,
  type PreviewParts,
  type PreviewUpdate,
  partNames,
  previewProtocol,
} from '../../../language/protocol/preview.ts';
import {
  type CursorPlace,
  closePreview,
  cursorMoved,
  openPreview,
  type Place,
  type PlaceParams,
  type PreviewParams,
  placeOfThing,
  previewUpdate,
} from '../../../language/protocol/requests.ts';
import type { Feature, ServerContext } from '../context.ts';
import { cursorOf } from '../cursor.ts';
import { subjectInSight } from '../elevation-subject.ts';
import { inUnits } from '../in-units.ts';
import type { Drawings } from '../preview-parts.ts';
import { revisionOf } from '../revision.ts';
import { createScheduler, type Scheduler } from '../scheduler.ts';
import { findThing } from '../things.ts';

interface OpenPreview {
  readonly uri: FileId;
  cursor: CursorPlace | undefined;
  sequence: number;
  /** Each part as it was sent last, to send only what changed. Empty: everything is due. */
  readonly sent: Map<PartName, string>;
  /** Of the labels, where a person chose others than the text is written in. */
  units: PaneUnits | undefined;
  /** The wall or girder in the elevation: it stays when the cursor leaves them all. */
  subject: string | undefined;
  /** What a person looks at instead of that of the cursor, until it moves. */
  looked: string | undefined;
  /** What could be drawn when the line under the cursor could last be read. */
  lastGood: Drawings | undefined;
  readonly scheduler: Scheduler;
}

/** Feeds the panes: after each analysis and each move of the cursor, what changed and nothing else. */
export const preview: Feature = {
  capabilities: {},
  register(context) {
    const previews = new Map<FileId, OpenPreview>();
    /** Loaded with the first pane: most sessions of checking and fixing never draw. */
    let drawing: typeof import('../preview-parts.ts') | undefined;

    function send(preview: OpenPreview): void {
      const { previewParts } = drawing ?? {};
      if (!previewParts || previews.get(preview.uri) !== preview) return;
      // A long first reading goes on in parts and tells when it is done; a move of the cursor must not do it in one.
      if (context.documents.get(preview.uri) && !context.analyses.isMade(preview.uri)) return;
      const update = context.guarded('drawing the preview', undefined, () =>
        nextUpdate(context, preview, previewParts),
      );
      if (update) void context.connection.sendNotification(previewUpdate, update);
    }

    context.connection.onNotification(openPreview, async ({ uri, cursor, units, look }: PreviewParams) => {
      const preview: OpenPreview = previews.get(uri) ?? {
        ...{ uri, cursor, units, sequence: 0, sent: new Map(), subject: look, looked: undefined, lastGood: undefined },
        scheduler: createScheduler(() => send(preview)),
      };
      previews.set(uri, preview);
      preview.cursor = cursor ?? preview.cursor;
      if (units !== undefined && units !== preview.units) {
        preview.units = units;
        preview.lastGood = undefined;
      }
      preview.sent.clear();
      drawing ??= await import('../preview-parts.ts');
      preview.scheduler.request();
    });
    context.connection.onNotification(cursorMoved, ({ uri, cursor, look }: PreviewParams) => {
      const preview = previews.get(uri);
      if (!preview || (!cursor && look === undefined)) return;
      preview.cursor = cursor ?? preview.cursor;
      preview.looked = look;
      preview.scheduler.request();
    });
    context.connection.onNotification(closePreview, ({ uri }: PreviewParams) => {
      previews.delete(uri);
    });
    context.connection.onRequest(placeOfThing, ({ uri, thing }: PlaceParams): Place | null =>
      context.guarded<Place | null>('finding a thing in the text', null, () => placeOf(context, uri, thing)),
    );
    return {
      analysed(roots) {
        for (const root of roots) previews.get(root)?.scheduler.request();
      },
    };
  },
};

function nextUpdate(
  context: ServerContext,
  preview: OpenPreview,
  previewParts: typeof import('../preview-parts.ts').previewParts,
): PreviewUpdate | undefined {
  const asWritten = context.analyses.of(preview.uri);
  if (!asWritten) return undefined;
  const analysis = inUnits(asWritten, preview.units);
  const cursor = preview.looked === undefined ? cursorOf(context, analysis, preview.cursor) : undefined;
  const subject = subjectInSight(cursor, analysis.layout, preview.looked ?? preview.subject);
  preview.subject = subject?.id;
  const { parts, drawings } = previewParts(context, analysis, { ...preview, subject, revision: revisionOf(asWritten) });
  preview.lastGood = drawings;

  const kind = preview.sent.size === 0 ? 'full' : 'patch';
  const changed = partNames.filter((name) => {
    const text = JSON.stringify(parts[name]);
    if (preview.sent.get(name) === text) return false;
    preview.sent.set(name, text);
    return true;
  });
  const version = context.documents.get(preview.uri)?.version ?? -1;
  if (changed.length === 0) return undefined;
  const base = preview.sequence;
  preview.sequence += 1;
  return {
    protocol: previewProtocol,
    uri: preview.uri,
    version,
    sequence: preview.sequence,
    kind,
    base,
    parts: pick(parts, changed),
  };
}

function pick(parts: PreviewParts, names: readonly PartName[]): Partial<PreviewParts> {
  return Object.fromEntries(names.map((name) => [name, parts[name]]));
}

function placeOf(context: ServerContext, uri: string, id: string): Place | null {
  const analysis = context.analyses.of(uri);
  const placed = analysis && findThing(analysis.layout, id);
  const location = placed && context.locationOf(analysis, placed.thing.source);
  if (!location) return null;
  return { uri: location.uri, version: context.documents.get(location.uri)?.version, ...location.range };
}
