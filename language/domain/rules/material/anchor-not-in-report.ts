import { fitAt } from '../../fit/clear-intervals.ts';
import { howSet } from '../../fit/fit-case.ts';
import { pieceAt } from '../../fit/piece-anchors.ts';
import { connectorsFor } from '../../fixes/choose-connector.ts';
import type { Connector } from '../../hardware/connector.ts';
import type { Layout, NewAnchor, Wall } from '../../model/layout.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { reportWords } from '../foundation/report-words.ts';

export const anchorNotInReport = defineRule({
  id: 'material/anchor-not-in-report',
  severity: 'error',
  on: 'anchor',
  summary: 'A connector is set with a kind of anchor that its report does not list.',
  why: 'The numbers of the report were found with the anchors that it names. With another one nobody knows what the plate holds.',
  remedy: 'Use an anchor that the report lists, or a connector whose report lists this one.',
  subjects: {},
  examples: [
    {
      failing: demo({ anchors: sound }).replace(`at 8'-8"`, `at 8'-8" with wedge-anchor`),
      passing: demo({ anchors: sound }).replace(`at 8'-8"`, `at 8'-8" with concrete-screw-anchor`),
    },
  ],
  check({ wall, anchor, connector }, context) {
    if (anchor.state === 'omitted' || anchor.state === 'failed') return;
    const other = anchor.withHardware?.find((each) => each.fastenerKind !== undefined);
    if (other?.fastenerKind === undefined) return;
    const listed = kindsInto(connector);
    if (listed.length === 0) {
      const thing = `connector:${connector.name}`;
      context.lacks({ wants: `anchors into concrete of connector ${connector.name}`, at: connector.source, thing });
      return;
    }
    const kind = other.fastenerKind;
    if (listed.includes(kind)) return;
    context.report({
      message:
        `${anchor.name}: ${connector.name} lists ${listed.join(', ').replaceAll('-', ' ')} into the concrete, not ${kind.replaceAll('-', ' ')} ` +
        `(${reportWords(connector)}). Use what it lists, or a connector that lists this one.`,
      span: other.source,
      related: [{ span: connector.source, message: `anchors of ${connector.name}` }],
      fixes: (now) => swaps(now, wall, anchor, other.name, kind),
    });
  },
});

const kindsInto = (connector: Connector): readonly string[] => [
  ...new Set(connector.fasteners.filter((each) => each.member === 'concrete').map((each) => each.kind.toLowerCase())),
];

function swaps(layout: Layout, wall: Wall, anchor: NewAnchor, added: string, kind: string): readonly Fix[] {
  if (anchor.state !== 'planned') return [];
  const { station } = anchor;
  const piece = station === undefined ? undefined : pieceAt(wall, station);
  const own: Fix = {
    title: `Set ${anchor.name} with the connector's own anchors`,
    trust: 'review',
    edits: [{ kind: 'drop-hardware', anchor: anchor.id, hardware: added }],
  };
  if (station === undefined || !piece) return [own];
  const others = connectorsFor(layout, wall, piece)
    .filter((each) => each !== anchor.connector && kindsInto(each).includes(kind))
    .filter((each) => {
      const { blocked, lacking } = fitAt({ layout, wall, piece, connector: each, ...howSet(anchor) }, station);
      return blocked.length === 0 && lacking.length === 0;
    });
  return [
    own,
    ...others.map(
      (each): Fix => ({
        title: `Use ${each.name} for ${anchor.name}`,
        trust: 'review',
        edits: [{ kind: 'set-connector', anchor: anchor.id, connector: each.name }],
      }),
    ),
  ];
}
