import { setEmbed } from '../../fixes/anchor-values.ts';
import type { Connector } from '../../hardware/connector.ts';
import { anchorsSill } from '../../hardware/connector.ts';
import type { NewAnchor } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { LimitQuery } from '../../rulesets/limit-for.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import type { Length } from '../../units/length.ts';
import { minus, smaller, zero } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { sourceWords } from '../limit-words.ts';
import { reportWords } from './report-words.ts';

const bolted = demo({ anchors: sound, connectors: ['bolt-half'], sill: `size 2x6 set-back 1-1/2" headroom 25"` });

export const embedShort = defineRule({
  id: 'foundation/embed-short',
  severity: 'error',
  on: 'anchor',
  summary: 'An anchor goes less deep into the concrete than its report, or the rule set, asks for.',
  why: 'A short anchor pulls a small cone of concrete out, or rocks in its hole. The depth comes from the approval of the anchor; a rule set may ask for more.',
  remedy: 'Drill deeper and take a longer rod, or a connector that needs less.',
  subjects: { embedment: 'length' },
  examples: [
    {
      failing: bolted.replace(`at 8'-8"`, `at 8'-8" embed 3-1/2"`),
      passing: bolted.replace(`at 8'-8"`, `at 8'-8" embed 4"`),
    },
  ],
  check({ anchor, connector }, context) {
    if (!anchorsSill(connector.kind) || anchor.state === 'omitted' || anchor.state === 'failed') return;
    if (anchor.embed?.kind === 'unknown') {
      context.lacks({ wants: `embedment of ${anchor.name}`, at: anchor.embed.source });
      return;
    }
    const planned = knownValue(anchor.embed) ?? depthOfReport(connector, 'hole');
    const asked = deepestAsked(connector, anchor, context);
    if (planned === undefined || asked === undefined) {
      context.lacks({ wants: `embedment of connector ${connector.name}`, at: connector.source });
      return;
    }
    if (planned >= asked.least) return;
    const { show } = context;
    const at = anchor.station === undefined ? '' : ` at ${context.showStation(anchor.station)}`;
    const source = asked.limit ? sourceWords(asked.limit) : reportWords(connector);
    context.report({
      message: `${anchor.name} (${connector.name})${at} goes ${show(planned)} into the concrete: at least ${show(asked.least)} (${source}). Drill deeper, with a longer rod.`,
      span: anchor.embed?.kind === 'known' ? anchor.embed.source : anchor.source,
      related: [{ span: connector.source, message: `what ${connector.name} asks for` }],
      citation: asked.limit?.citation,
      fixes: () => setEmbed(context.layout, anchor, asked.least),
    });
  },
});

interface AskedDepth {
  readonly least: Length;
  /** `undefined`: the report of the connector. */
  readonly limit: Limit | undefined;
}

/**
 * How deep the report has the fastener go, by its embedment or by its hole, whichever is asked for first. A screw goes no deeper than
 * its length leaves it behind the plate, and its hole is drilled past it for the dust: without an embedment it is driven home.
 */
function depthOfReport({ fasteners, body }: Connector, first: 'embed' | 'hole'): Length | undefined {
  const fastener = fasteners.find((each) => each.member === 'concrete');
  if (!fastener) return undefined;
  const { embed, holeDepth, long, kind } = fastener;
  if (kind === 'concrete-screw-anchor' && embed === undefined && holeDepth !== undefined && long !== undefined) {
    return smaller(holeDepth, minus(long, body?.thick ?? zero));
  }
  return first === 'embed' ? (embed ?? holeDepth) : (holeDepth ?? embed);
}

/** The report holds; where the rule set asks for more, that does. */
function deepestAsked(connector: Connector, anchor: NewAnchor, context: RuleContext): AskedDepth | undefined {
  const fastener = connector.fasteners.find((each) => each.member === 'concrete');
  const own = depthOfReport(connector, 'embed');
  const byReport = own === undefined ? undefined : { least: own, limit: undefined };
  const query: LimitQuery = {
    ...(fastener?.diameter === undefined ? {} : { bolt: { kind: 'length', length: fastener.diameter } }),
    ...(fastener ? { [fastener.kind.toLowerCase()]: { kind: 'holds' } } : {}),
  };
  const answer = context.limit('embedment', query);
  if (answer.kind === 'depends' || answer.kind === 'conflict') {
    context.leftOpen(answer.kind === 'conflict' ? { ...answer, subject: 'embedment' } : answer, anchor.source);
    return byReport;
  }
  const least = answer.kind === 'limit' ? leastLength(answer.limit)?.reach : undefined;
  if (answer.kind !== 'limit' || least === undefined) return byReport;
  return byReport && byReport.least >= least ? byReport : { least, limit: answer.limit };
}
