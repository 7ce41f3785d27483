import { noTags } from '../../domain/model/layout.ts';
import type { Issue } from '../../domain/model/record.ts';
import type * as ast from '../../generated/ast.ts';
import type { InstalledDraft, IssueDraft, RecordDraft, RecordEventDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { blockTags, tagsOf } from './stretches.ts';

/** One day's events. Stations stay as written: they belong to the wall of the mark, which another block describes. */
export function lowerRecord(tree: ast.DayRecord, context: LowerContext): RecordDraft | undefined {
  if (tree.date === undefined) return undefined;
  return {
    kind: 'record',
    date: context.date(tree, 'date') ?? tree.date,
    by: tree.by,
    events: tree.items.flatMap((item) => lowerEvent(item, context)),
    tags: blockTags(tree.items, context),
    source: context.span(tree),
  };
}

function lowerEvent(item: ast.DayRecordItem, context: LowerContext): readonly RecordEventDraft[] {
  switch (item.$type) {
    case 'Installed':
      return lowerInstalled(item, context);
    case 'Omitted': {
      const marks = marksOf(item, context);
      if (marks.length === 0) return [];
      return [
        { kind: 'omitted', marks, reason: item.reason, tags: context.tags(item.tags), source: context.span(item) },
      ];
    }
    case 'Tested':
      return lowerTested(item, context);
    case 'Inspected':
      return [
        {
          kind: 'inspected',
          what: item.what,
          result: item.result,
          tags: context.tags(item.tags),
          source: context.span(item),
        },
      ];
    case 'Discovered': {
      const { text } = item;
      if (text === undefined) return [];
      const found = {
        kind: 'discovered',
        text,
        on: context.name(item, 'on'),
        tags: context.tags(item.tags),
        source: context.span(item),
      } as const;
      const where = context.where(item.where, 'what was discovered');
      if (where?.kind !== 'at') return [{ ...found, where }];
      // Each station is a thing of its own.
      return where.stations.map((station) => ({ ...found, where: { ...where, stations: [station] } }));
    }
    case 'DeadHole':
      return [
        {
          kind: 'dead-hole',
          on: context.name(item, 'on'),
          at: context.station(item.at, 'a dead hole'),
          state: item.state,
          tags: context.tags(item.tags),
          source: context.span(item),
        },
      ];
    case 'NoteLine':
    case 'PhotoLine':
    case 'AskLine':
      return [];
  }
}

function lowerInstalled(item: ast.Installed, context: LowerContext): readonly InstalledDraft[] {
  const marks = marksOf(item, context);
  const [first] = marks;
  if (!first) return [];
  let embed: InstalledDraft['embed'];
  let offset: InstalledDraft['offset'];
  let torque: InstalledDraft['torque'];
  let using: InstalledDraft['using'];
  let lot: string | undefined;
  let expires: string | undefined;
  let reason: string | undefined;
  for (const each of item.attributes) {
    switch (each.$type) {
      case 'InstalledDimension': {
        const what = `${each.key} of ${first.name} as installed`;
        if (each.key === 'embed') embed = context.length(each.value, what);
        else if (each.key === 'offset') offset = context.length(each.value, what);
        else torque = context.quantity(each.value, what, 'moment');
        break;
      }
      case 'InstalledUsing':
        using = context.name(each, 'connector');
        break;
      case 'InstalledLot':
        lot = each.lot;
        expires = context.date(each, 'expires');
        break;
      case 'InstalledReason':
        reason = each.reason;
        break;
    }
  }
  if (item.at && marks.length > 1) {
    context.say(
      'wrong-kind',
      `${marks.map((mark) => mark.name).join(', ')} cannot all stand at one station; write an \`installed\` line for each.`,
      context.spanOf(item, 'at'),
    );
  }
  return [
    {
      kind: 'installed',
      marks,
      place: placeOf(item, first.name, marks.length, context),
      embed,
      offset,
      torque,
      using,
      lot,
      expires,
      reason,
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

function placeOf(item: ast.Installed, mark: string, marks: number, context: LowerContext): InstalledDraft['place'] {
  if (item.asPlanned) return { kind: 'as-planned' };
  const at = context.station(item.at, `${mark} as installed`);
  // Of several marks at one station none can be told to stand there.
  if (!at || marks > 1) return { kind: 'unknown' };
  if ('amount' in at && at.amount.kind === 'unknown') return { kind: 'unknown' };
  return { kind: 'at', at };
}

function lowerTested(item: ast.Tested, context: LowerContext): readonly RecordEventDraft[] {
  const marks = marksOf(item, context);
  const [first] = marks;
  if (!first) return [];
  const dimension = item.how === 'torque' ? 'moment' : 'force';
  let failure: ast.TestedFailure['failure'] | undefined;
  let witness: string | undefined;
  for (const each of item.attributes) {
    if (each.$type === 'TestedFailure') failure = each.failure;
    if (each.$type === 'TestedWitness') witness = each.witness;
  }
  return [
    {
      kind: 'tested',
      marks,
      how: item.how,
      value: context.quantity(item.value, `${item.how ?? 'test'} of ${first.name}`, dimension),
      result: item.result,
      failure,
      witness,
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

export function lowerIssue(tree: ast.Issue, context: LowerContext): IssueDraft {
  const changed: Issue['changed'][number][] = [];
  let fingerprint: string | undefined;
  for (const item of tree.items) {
    if (item.$type === 'Fingerprint') fingerprint = readFingerprint(item, context) ?? fingerprint;
    if (item.$type === 'Changed') {
      const marks = marksOf(item, context);
      if (marks.length > 0) changed.push({ marks, reason: item.reason });
    }
  }
  const { number } = tree;
  if (number !== undefined && !(Number.isInteger(number) && number > 0)) {
    context.say('wrong-kind', `Issues are numbered 1, 2, 3 …; ${number} is none.`, context.spanOf(tree, 'number'));
  }
  const tags = blockTags(tree.items, context);
  return {
    kind: 'issue',
    issue: {
      number,
      date: context.date(tree, 'date'),
      purpose: tree.purpose,
      by: tags.by,
      fingerprint,
      changed,
      source: context.spanOf(tree, 'number'),
      ...(tags === noTags ? {} : { tags }),
    },
  };
}

/** Eight hex digits, written in two groups. */
function readFingerprint(item: ast.Fingerprint, context: LowerContext): string | undefined {
  if (item.fingerprint === undefined) return undefined;
  const digits = item.fingerprint.replaceAll('-', '').toLowerCase();
  if (/^[0-9a-f]{8}$/.test(digits)) return digits;
  context.say(
    'wrong-kind',
    `"${item.fingerprint}" is no fingerprint: it has eight digits 0 to 9 and a to f, and the tool writes it.`,
    context.spanOf(item, 'fingerprint'),
  );
  return undefined;
}

function marksOf<Node extends ast.Installed | ast.Omitted | ast.Tested | ast.Changed>(
  item: Node,
  context: LowerContext,
): RecordDraftMarks {
  return item.marks.flatMap((_, index) => context.name(item, 'marks' as keyof Node & string, index) ?? []);
}
type RecordDraftMarks = Extract<RecordEventDraft, { kind: 'omitted' }>['marks'];
