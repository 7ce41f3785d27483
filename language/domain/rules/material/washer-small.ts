import { whyWorthless } from '../../fit/piece-anchors.ts';
import type { Body, Connector } from '../../hardware/connector.ts';
import type { FoundAnchor, Layout, LengthUnits, NewAnchor, Wall } from '../../model/layout.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import { formatLength } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';
import { inInches, inMillimetres, sixteenth, smaller } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { boltDemo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { sourceWords } from '../limit-words.ts';

export const washerSmall = defineRule({
  id: 'material/washer-small',
  severity: 'error',
  on: 'wall',
  summary: 'The plate washer of a sill anchor is smaller or thinner than the rule set asks.',
  why: 'The sill rolls and lifts under the wall, and a small washer pulls into the wood and splits it.',
  remedy: 'Set the bolt with a square plate washer of the size asked; put a new one on an old bolt that is counted.',
  subjects: { 'washer-side': 'length', 'washer-thick': 'length' },
  examples: [
    {
      failing: boltDemo('body 2-15/16" wide 3" tall 1/4" thick'),
      passing: boltDemo('body 3" wide 3" tall 0.229" thick'),
    },
  ],
  check({ wall }, context) {
    const [sideAsked, thickAsked] = [context.limit('washer-side', {}), context.limit('washer-thick', {})];
    const least: Asked = {
      side: sideAsked.kind === 'limit' ? sideAsked.limit : undefined,
      thick: thickAsked.kind === 'limit' ? thickAsked.limit : undefined,
    };
    if (!least.side && !least.thick) return;
    lookAtNew(wall, least, context);
    for (const anchor of wall.foundAnchors) lookAtFound(wall, anchor, least, context);
  },
});

interface Asked {
  readonly side: Limit | undefined;
  readonly thick: Limit | undefined;
}

/** One finding for a kind of bolt, on the first that has it: it is one line in the hardware file or one habit that is wrong. */
function lookAtNew(wall: Wall, least: Asked, context: RuleContext): void {
  const small = new Map<Connector, NewAnchor[]>();
  for (const anchor of wall.anchors) {
    const { connector } = anchor;
    if (connector?.kind !== 'through-bolt' || anchor.state === 'omitted' || anchor.state === 'failed') continue;
    const washer = anchor.withHardware?.find((each) => each.connector?.kind === 'plate-washer')?.connector ?? connector;
    const verdict = verdictOn(washer.body, least);
    if (verdict === 'unknown') {
      const what = washer.body ? 'thickness of the washer of' : 'washer of';
      context.lacks({
        wants: `${what} connector ${washer.name}`,
        at: washer.source,
        thing: `connector:${washer.name}`,
      });
    } else if (verdict === 'small') {
      const list = small.get(washer);
      if (list) list.push(anchor);
      else small.set(washer, [anchor]);
    }
  }
  const { units } = context.layout.title;
  for (const [washer, [first, ...others]] of small) {
    if (!first || !washer.body) continue;
    const more = others.length === 0 ? '' : ` and ${others.length} more`;
    context.report({
      message:
        `The washer of ${first.name}${more} (${washer.name}) is ${sizeWords(washer.body, units)}: ${askedWords(least)}. ` +
        'Set it with a plate washer of that size.',
      thing: first.id,
      about: `${wall.id} ${washer.name}`,
      layer: 'design',
      station: first.station,
      span: first.connectorSource ?? first.source,
      related: [
        ...others.slice(0, 5).map((each) => ({ span: each.source, message: `the same on ${each.name}` })),
        { span: washer.source, message: `what ${washer.name} is` },
      ],
      citation: (least.side ?? least.thick)?.citation,
      fixes: (now) => (washer.kind === 'plate-washer' ? [] : otherWashers(now, [first, ...others], least)),
    });
  }
}

/** A counted old bolt keeps its nut and gets a new plate under it. */
function lookAtFound(wall: Wall, anchor: FoundAnchor, least: Asked, context: RuleContext): void {
  if (anchor.credit === 'none' || whyWorthless(anchor) !== undefined) return;
  const name = anchor.name ?? 'the found anchor';
  const at = anchor.station === undefined ? '' : ` at ${context.showStation(anchor.station)}`;
  const { newWasher } = anchor;
  const verdict = newWasher ? verdictOn(newWasher.body, least) : washerFound(anchor);
  if (verdict === 'enough') return;
  if (verdict === 'unknown') {
    context.lacks({ wants: `washer of ${name}${at} on wall ${wall.name}`, at: anchor.source, thing: anchor.id });
    return;
  }
  const found = newWasher ? newWasher.name : anchor.washer === 'none' ? 'no washer' : `a ${anchor.washer} washer`;
  context.report({
    message:
      `${name.charAt(0).toUpperCase()}${name.slice(1)}${at} is counted with ${found}: ${askedWords(least)}. ` +
      'Put a plate washer on it, or count it for nothing.',
    thing: anchor.id,
    about: anchor.id,
    layer: newWasher ? 'design' : 'survey',
    station: anchor.station,
    span: anchor.source,
    citation: (least.side ?? least.thick)?.citation,
  });
}

type Verdict = 'enough' | 'small' | 'unknown';

/** Sizes of products have no tolerance. */
function verdictOn(body: Body | undefined, { side, thick }: Asked): Verdict {
  if (!body) return 'unknown';
  const leastSide = side && leastLength(side)?.reach;
  const leastThick = thick && leastLength(thick)?.reach;
  if (leastSide !== undefined && smaller(body.wide, body.tall) < leastSide) return 'small';
  if (leastThick === undefined) return 'enough';
  if (body.thick === undefined) return 'unknown';
  return body.thick < leastThick ? 'small' : 'enough';
}

/** Cut and round washers are a little wider than the nut; of a square one nobody wrote down the size. */
function washerFound({ washer }: FoundAnchor): Verdict {
  return washer === 'none' || washer === 'cut' || washer === 'round' ? 'small' : 'unknown';
}

function askedWords({ side, thick }: Asked): string {
  const typed = (limit: Limit | undefined): readonly string[] => {
    const bound = limit && leastLength(limit)?.bound;
    return bound ? [bound.value.typed] : [];
  };
  const sides = typed(side).flatMap((each) => [each, each]);
  const [limit] = [side, thick].filter((each) => each !== undefined);
  return `at least ${[...sides, ...typed(thick)].join(' x ')}${limit ? ` (${sourceWords(limit)})` : ''}`;
}

function sizeWords({ wide, tall, thick }: Body, units: LengthUnits): string {
  return [wide, tall, ...(thick === undefined ? [] : [thick])].map((each) => finely(each, units)).join(' x ');
}

/** Plate is sold by thousandths of an inch, so a sixteenth would round a small one up to what is asked. */
function finely(length: Length, units: LengthUnits): string {
  if (units === 'metric') return `${Number(inMillimetres(length).toFixed(1))} mm`;
  return length % sixteenth === 0 ? formatLength(length, units) : `${Number(inInches(length).toFixed(3))}"`;
}

function otherWashers(layout: Layout, anchors: readonly NewAnchor[], least: Asked): readonly Fix[] {
  const planned = anchors.filter((each) => each.state === 'planned');
  const [first] = planned;
  if (!first) return [];
  const more = planned.length === 1 ? '' : ` and ${planned.length - 1} more`;
  return [...layout.connectors.values()]
    .filter((each) => each.kind === 'plate-washer' && verdictOn(each.body, least) === 'enough')
    .map((each) => ({
      title: `Set ${first.name}${more} with ${each.name}`,
      trust: 'review',
      edits: planned.map((anchor) => ({ kind: 'add-hardware' as const, anchor: anchor.id, hardware: each.name })),
    }));
}
