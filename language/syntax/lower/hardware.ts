import type { Capacity, Connector, Fastener, Fits, Holes } from '../../domain/hardware/connector.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import type { Length } from '../../domain/units/length.ts';
import { parseLength } from '../../domain/units/parse-length.ts';
import type * as ast from '../../generated/ast.ts';
import type { BlockDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { blockTags } from './stretches.ts';

export function lowerConnector(
  tree: ast.Connector,
  context: LowerContext,
): Extract<BlockDraft, { kind: 'connector' }> | undefined {
  const { name, kind } = tree;
  if (name === undefined || kind === undefined) return undefined;
  const nameSource = context.spanOf(tree, 'name');
  const fits: Fits[] = [];
  const fasteners: Fastener[] = [];
  const holes: Holes[] = [];
  const capacities: Capacity[] = [];
  const tools: string[] = [];
  const { notes } = blockTags(tree.items, context);
  let demo = false;
  let report: string | undefined;
  let body: Connector['body'];
  let drop: Length | undefined;
  let metal: string | undefined;
  for (const item of tree.items) {
    switch (item.$type) {
      case 'DemoLine':
        demo = true;
        break;
      case 'ReportLine':
        report = item.report;
        break;
      case 'Fits': {
        const least = context.knownLength(item.first ?? item.least, `reach of ${name}`);
        const most = context.knownLength(item.last ?? item.most, `reach of ${name}`);
        if (least !== undefined && most !== undefined && least > most) sayEmptyFit(item, context);
        else if (item.subject && (least !== undefined || most !== undefined)) {
          fits.push({ subject: item.subject, least, most, source: context.span(item) });
        }
        break;
      }
      case 'Body': {
        const wide = context.knownLength(item.wide, `body of ${name}`);
        const tall = context.knownLength(item.tall, `body of ${name}`);
        if (wide !== undefined && tall !== undefined)
          body = { wide, tall, thick: context.knownLength(item.thick, `body of ${name}`) };
        break;
      }
      case 'Drop':
        drop = context.knownLength(item.drop, `drop of ${name}`);
        break;
      case 'Fastener':
        if (item.member && item.count !== undefined && item.kind !== undefined) {
          fasteners.push(lowerFastener(item, item.member, item.count, item.kind, name, context));
        }
        break;
      case 'Holes':
        if (item.member) {
          holes.push({ member: item.member, points: item.points.flatMap((point) => context.point(point) ?? []) });
        }
        break;
      case 'Capacity': {
        const value = context.quantity(item.value, `capacity of ${name}`, 'force');
        if (!value || !item.direction) break;
        let basis: Capacity['basis'] = 'allowable';
        let species: string | undefined;
        let citation: string | undefined;
        for (const each of item.attributes) {
          if (each.$type === 'CapacityBasis') basis = each.basis;
          if (each.$type === 'CapacitySpecies') species = each.species;
          if (each.$type === 'CapacitySource') citation = each.source;
        }
        capacities.push({ direction: item.direction, value, basis, species, citation });
        break;
      }
      case 'MetalLine':
        metal = item.metal;
        break;
      case 'ToolLine':
        if (item.tool !== undefined) tools.push(item.tool);
        break;
      case 'NoteLine':
      case 'PhotoLine':
      case 'AskLine':
        break;
    }
  }
  const withoutSource = capacities.filter((each) => each.citation === undefined);
  if (report === undefined && !demo) {
    if (!NEEDS_NO_REPORT.has(kind)) sayNoReport(name, nameSource, context);
    else for (const each of withoutSource) sayNoCapacitySource(name, each, context);
  }
  if (!body && NEEDS_BODY.has(kind) && !tree.items.some((item) => item.$type === 'Body')) {
    context.say(
      'connector-without-body',
      `${name} does not say how much room it takes, so no check can tell where it fits. Add \`body … wide … tall\`.`,
      nameSource,
      { severity: 'warning' },
    );
  }
  return {
    kind: 'connector',
    nameSource,
    connector: {
      name,
      kind,
      demo,
      report,
      fits,
      body,
      drop,
      fasteners,
      holes,
      capacities,
      metal,
      tools,
      notes,
      source: nameSource,
    },
  };
}

/** Where they fit is asked of them, and the answer begins with their size. */
const NEEDS_BODY: ReadonlySet<Connector['kind']> = new Set(['side-plate', 'stepped-side-plate', 'through-bolt']);
/** Plain steel that anybody cuts. */
const NEEDS_NO_REPORT: ReadonlySet<Connector['kind']> = new Set(['plate-washer', 'shim']);

function sayNoReport(name: string, span: SourceSpan, context: LowerContext): void {
  context.say(
    'hardware-without-source',
    `${name} does not say which evaluation report its numbers come from. Add \`report "…"\`, or \`demo\` where they are invented.`,
    span,
    { severity: 'warning' },
  );
}

function sayNoCapacitySource(name: string, capacity: Capacity, context: LowerContext): void {
  context.say(
    'hardware-without-source',
    `This capacity of ${name} does not say where it comes from. Put \`source "…"\` behind it, or \`report "…"\` above.`,
    capacity.value.source,
    { severity: 'warning' },
  );
}

function sayEmptyFit(item: ast.Fits, context: LowerContext): void {
  const turned = [item.last, item.first].map((value) => (value ? context.textOf(value) : '')).join(' to ');
  const first = item.first ? context.span(item.first) : context.span(item);
  const span = { ...first, end: item.last ? context.span(item.last).end : first.end };
  context.say('empty-range', `A range goes from its least to its most: write \`${turned}\`.`, span, {
    replacements: [{ title: `Write ${turned}`, text: turned, span }],
  });
}

function lowerFastener(
  item: ast.Fastener,
  member: Fastener['member'],
  count: number,
  kind: string,
  connector: string,
  context: LowerContext,
): Fastener {
  const lengths = new Map<ast.FastenerDimension['key'], Length | undefined>();
  let metal: string | undefined;
  for (const each of item.attributes) {
    if (each.$type === 'FastenerDimension')
      lengths.set(each.key, context.knownLength(each.value, `${each.key} of ${connector}`));
    if (each.$type === 'FastenerMetal') metal = each.metal;
  }
  const penny = item.diameter === undefined ? undefined : /^(\d+)d$/i.exec(item.diameter)?.[1];
  const lengthIn = (property: 'diameter' | 'long'): Length | undefined => {
    const typed = item[property];
    if (typed === undefined || (property === 'diameter' && penny !== undefined)) return undefined;
    const parsed = parseLength(typed);
    if (parsed.kind === 'length') return parsed.length;
    context.say('no-unit', `${parsed.reason}.`, context.spanOf(item, property), {
      replacements: (parsed.suggestions ?? []).map((text) => ({
        title: `Write ${text}`,
        text,
        span: context.spanOf(item, property),
      })),
    });
    return undefined;
  };
  return {
    member,
    count,
    kind,
    diameter: lengthIn('diameter'),
    penny: penny === undefined ? undefined : Number(penny),
    long: lengthIn('long'),
    hole: lengths.get('hole'),
    holeDepth: lengths.get('hole-depth'),
    embed: lengths.get('embed'),
    apart: lengths.get('apart'),
    edge: lengths.get('edge'),
    metal,
    ...(item.attributes.some((each) => each.$type === 'FastenerFilled') ? { filled: true } : {}),
  };
}
