import type { Analysis } from '../../../language/analysis.ts';
import type { FileId } from '../../../language/domain/model/source.ts';
import type { Steps } from '../../../language/domain/steps.ts';
import type { PaneUnits } from '../../../language/protocol/pane-choices.ts';
import { changeBetween } from '../../../language/protocol/picture.ts';
import {
  type DrawingPart,
  type PartName,
  type PreviewParts,
  type PreviewUpdate,
  partNames,
  previewProtocol,
  type SentParts,
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
import type { Drawings, PaneMemory, Plan, PreviewRequest } from '../preview-parts.ts';
import { revisionOf } from '../revision.ts';
import { createScheduler, inPauses, type Scheduler, timeFor, timeForOnePart } from '../scheduler.ts';
import { findThing } from '../things.ts';

/** As the pane has it. A drawing needs no text: what changed in it is found by its pieces. */
interface SentBefore {
  readonly part: PreviewParts[PartName];
  readonly text: string;
}

interface OpenPreview {
  readonly uri: FileId;
  cursor: CursorPlace | undefined;
  sequence: number;
  /** Each part as it was sent last, to send only what changed. Empty: everything is due. */
  readonly sent: Map<PartName, SentBefore>;
  /** Of the labels, where a person chose others than the text is written in. */
  units: PaneUnits | undefined;
  /** The wall or girder in the elevation: it stays when the cursor leaves them all. */
  subject: string | undefined;
  /** What a person looks at instead of that of the cursor, until it moves. */
  looked: string | undefined;
  /** What could be drawn when the line under the cursor could last be read. */
  lastGood: Drawings | undefined;
  readonly scheduler: Scheduler;
  /** What is left of the plan that was drawn last; dropped when the text changed meanwhile. */
  planning: Planning | undefined;
  readonly planner: Scheduler;
  /** Lets a plan that waits begin when the hand pauses. */
  readonly beginInPause: () => void;
  /** Milliseconds of work in the longest of the last plans. */
  planTook: number;
  /** As it was drawn last, also in other units. */
  plan: Plan | undefined;
  /** Made with the first drawing. */
  memory: PaneMemory | undefined;
}

interface Planning {
  readonly of: Analysis;
  readonly steps: Steps<Plan>;
  /** Milliseconds of work so far. */
  took: number;
  waitsForPause: boolean;
}

/** In milliseconds, of the plan of a house that was not drawn before. What takes longer comes after the wall in sight. */
const LONGEST_FIRST_PLAN = 150;
/** In milliseconds of work. A plan that takes longer is begun when the hand pauses: else it is in the way of the next key, and dropped by it. */
const LONGEST_PLAN_IN_TYPING = 60;
/** Milliseconds from a key on, in which a hand that types on has pressed the next one. */
const PAUSE = 150;

/** Feeds the panes: after each analysis and each move of the cursor, what changed and nothing else. */
export const preview: Feature = {
  capabilities: {},
  register(context) {
    const previews = new Map<FileId, OpenPreview>();
    /** Loaded with the first pane: most sessions of checking and fixing never draw. */
    let drawing: typeof import('../preview-parts.ts') | undefined;

    function send(preview: OpenPreview): void {
      if (!drawing || previews.get(preview.uri) !== preview) return;
      const { previewParts, isPlanDue, planInSteps, planToCome, createPaneMemory } = drawing;
      preview.memory ??= createPaneMemory();
      const { memory } = preview;
      const planningOf = (analysis: Analysis, waitsForPause: boolean): Planning => {
        const steps = planInSteps(analysis, memory.plan);
        return { of: analysis, steps, took: 0, waitsForPause };
      };
      const firstPlan = (analysis: Analysis): Plan => {
        preview.planning = planningOf(analysis, false);
        return partOf(preview.planning.steps, timeFor(LONGEST_FIRST_PLAN)) ?? preview.plan ?? planToCome;
      };
      const update = context.guarded('drawing the preview', undefined, () =>
        nextUpdate(context, preview, { firstPlan, memory }, previewParts),
      );
      if (update) void context.connection.sendNotification(previewUpdate, update);
      const { lastGood, planning } = preview;
      preview.plan = lastGood?.plan;
      if (!lastGood || !isPlanDue(lastGood)) preview.planning = undefined;
      else if (planning?.of !== lastGood.analysis)
        preview.planning = planningOf(lastGood.analysis, preview.planTook > LONGEST_PLAN_IN_TYPING);
      if (preview.planning?.waitsForPause) preview.beginInPause();
      else if (preview.planning) preview.planner.request();
    }

    /** A few milliseconds of it, with what came meanwhile read in between. A newer text has its own update behind it. */
    function goOnWithPlan(preview: OpenPreview): void {
      const { planning, lastGood } = preview;
      const isWanted = previews.get(preview.uri) === preview && context.analyses.isMade(preview.uri);
      if (!planning || !isWanted || planning.of !== lastGood?.analysis) {
        preview.planning = undefined;
        return;
      }
      if (planning.waitsForPause) return;
      const began = performance.now();
      const plan = context.guarded<Plan | typeof failed | undefined>('drawing the plan', failed, () =>
        partOf(planning.steps, timeForOnePart()),
      );
      planning.took += performance.now() - began;
      preview.planTook = plan === undefined ? Math.max(preview.planTook, planning.took) : planning.took;
      if (plan === undefined) return;
      preview.planning = undefined;
      if (plan === failed) return;
      preview.lastGood = { ...lastGood, plan };
      send(preview);
    }

    context.connection.onNotification(openPreview, async ({ uri, cursor, units, look }: PreviewParams) => {
      const preview: OpenPreview = previews.get(uri) ?? {
        ...{ uri, cursor, units, sequence: 0, sent: new Map(), subject: look, looked: undefined, lastGood: undefined },
        ...{ planning: undefined, planTook: 0, plan: undefined, memory: undefined },
        scheduler: createScheduler(() => send(preview)),
        planner: createScheduler(
          () => goOnWithPlan(preview),
          () => preview.planning?.waitsForPause === false,
        ),
        beginInPause: inPauses(() => {
          if (!preview.planning) return;
          preview.planning.waitsForPause = false;
          preview.planner.request();
        }, PAUSE),
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
        for (const root of roots) {
          const preview = previews.get(root);
          if (preview) send(preview);
        }
      },
    };
  },
};

const failed = 'failed';

/** `undefined` where there was no time to come to the end. */
function partOf<Result>(steps: Steps<Result>, hasTime: () => boolean): Result | undefined {
  do {
    const step = steps.next();
    if (step.done === true) return step.value;
  } while (hasTime());
  return undefined;
}

function nextUpdate(
  context: ServerContext,
  preview: OpenPreview,
  drawn: Pick<PreviewRequest, 'firstPlan' | 'memory'>,
  previewParts: typeof import('../preview-parts.ts').previewParts,
): PreviewUpdate | undefined {
  const asWritten = context.analyses.of(preview.uri);
  if (!asWritten) return undefined;
  const analysis = inUnits(asWritten, preview.units);
  const cursor = cursorOf(context, analysis, preview.cursor);
  const { looked } = preview;
  const subject = subjectInSight(looked === undefined ? cursor : undefined, analysis.layout, looked ?? preview.subject);
  preview.subject = subject?.id;
  const { uri, cursor: place, lastGood } = preview;
  const request = { ...drawn, uri, place, cursor, subject, lastGood, revision: revisionOf(asWritten) };
  const { parts, drawings } = previewParts(context, analysis, request);
  preview.lastGood = drawings;

  const kind = preview.sent.size === 0 ? 'full' : 'patch';
  const sent = Object.assign({}, ...partNames.map((name) => toSend(preview, name, parts))) as SentParts;
  const version = context.documents.get(preview.uri)?.version ?? -1;
  if (Object.keys(sent).length === 0) return undefined;
  const base = preview.sequence;
  preview.sequence += 1;
  return {
    protocol: previewProtocol,
    uri: preview.uri,
    version,
    sequence: preview.sequence,
    kind,
    base,
    parts: sent,
  };
}

/** A part, if it is another than the pane has; of a drawing, what changed in it. */
function toSend({ sent }: OpenPreview, name: PartName, parts: PreviewParts): SentParts {
  const part = parts[name];
  const before = sent.get(name);
  // A drawing that is kept is the same object.
  if (before?.part === part) return {};
  if (name !== 'plan' && name !== 'elevation') {
    const text = JSON.stringify(part);
    sent.set(name, { part, text });
    return before?.text === text ? {} : { [name]: part };
  }
  const { picture, ...rest } = parts[name];
  const text = JSON.stringify(rest);
  sent.set(name, { part, text });
  const pictureBefore = before ? (before.part as DrawingPart).picture : null;
  if (!before || !pictureBefore || !picture || isOfAnother(before.part, part)) {
    const isSame = before?.text === text && pictureBefore === picture;
    return isSame ? {} : { [name]: part };
  }
  const change = changeBetween(pictureBefore, picture);
  return !change && before.text === text ? {} : { [name]: { ...rest, changes: change ? [change] : [] } };
}

/** Little of one wall is in the elevation of another. */
const isOfAnother = (before: PreviewParts[PartName], now: PreviewParts[PartName]): boolean =>
  'axis' in before && 'axis' in now && before.wall !== now.wall;

function placeOf(context: ServerContext, uri: string, id: string): Place | null {
  const analysis = context.analyses.of(uri);
  const placed = analysis && findThing(analysis.layout, id);
  const location = placed && context.locationOf(analysis, placed.thing.source);
  if (!location) return null;
  return { uri: location.uri, version: context.documents.get(location.uri)?.version, ...location.range };
}
