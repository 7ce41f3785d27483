import { pieceAt } from '../../fit/piece-anchors.ts';
import { changeConnector } from '../../fixes/anchor-fixes.ts';
import type { Connector, ConnectorKind } from '../../hardware/connector.ts';
import { type ConnectorUse, kindsFor, kindWords } from '../../hardware/kinds-for-use.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';

const oneMore = [...sound.slice(0, 2), `6'-8"`, ...sound.slice(2)];

export const connectorMisplaced = defineRule({
  id: 'load-path/connector-misplaced',
  severity: 'error',
  on: 'wall',
  summary: 'A line of new work uses a connector of a kind that cannot do what the line says.',
  why: 'A framing angle does not tie a sill to concrete, and a hold-down is no strap. The line looks like work done, but the piece counts for nothing in the checks and would do nothing in an earthquake.',
  remedy:
    'Name a connector of the right kind, or write the line that this one belongs on: `angles`, `hold-down`, `strap`.',
  subjects: {},
  examples: [
    {
      failing: demo({ anchors: oneMore, connectors: ['stepped-plate-s', 'stepped-plate-s', 'angle-8'] }),
      passing: demo({ anchors: sound }),
    },
  ],
  check({ wall }, context) {
    const wrong = (use: ConnectorUse, connector: Connector | undefined): ConnectorKind | undefined =>
      connector && !kindsFor[use].includes(connector.kind) ? connector.kind : undefined;
    for (const anchor of wall.anchors) {
      const kind = wrong('anchor', anchor.connector);
      if (!kind) continue;
      const { station } = anchor;
      const piece = station === undefined ? undefined : pieceAt(wall, station);
      context.report({
        message: `${anchor.name} is \`${anchor.connectorName}\`, ${kindWords[kind]}, which ties no sill to concrete and counts for nothing. Use ${wantedWords('anchor')}.`,
        thing: anchor.id,
        layer: 'design',
        piece: piece?.name,
        station,
        span: anchor.connectorSource ?? anchor.source,
        fixes: (now) => changeConnector(now, wall, piece, anchor),
      });
    }
    for (const run of wall.angles) {
      const kind = wrong('angles', run.connector);
      if (!kind) continue;
      context.report({
        message: `${run.name} is \`${run.connectorName}\`, ${kindWords[kind]}, which ties no floor to the sill. Use ${wantedWords('angles')}.`,
        thing: run.id,
        layer: 'design',
        station: run.stations[0],
        span: run.connectorSource,
      });
    }
    for (const tie of wall.ties) {
      const kind = wrong(tie.kind, tie.connector);
      if (!kind) continue;
      context.report({
        message: `${tie.name} is \`${tie.connectorName}\`, ${kindWords[kind]}, which is no ${tie.kind}. Use ${wantedWords(tie.kind)}.`,
        thing: tie.id,
        layer: 'design',
        station: tie.station,
        span: tie.connectorSource ?? tie.source,
      });
    }
    for (const remedy of wall.remedies) {
      if (remedy.verb !== 'washer') continue;
      const kind = wrong('washer', remedy.connector);
      if (!kind) continue;
      context.report({
        message: `${remedy.on.name} gets \`${remedy.connectorName}\`, ${kindWords[kind]}, which is no washer. Use ${wantedWords('washer')}.`,
        thing: remedy.id,
        layer: 'design',
        span: remedy.source,
      });
    }
  },
});

function wantedWords(use: ConnectorUse): string {
  const words = kindsFor[use].map((kind) => kindWords[kind]);
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
}
