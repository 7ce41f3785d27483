import { anchorsOf } from '../../fit/piece-anchors.ts';
import { lineOf, othersOfLine, speaksForLine } from '../../fit/storeys.ts';
import { changeConnector } from '../../fixes/anchor-fixes.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';

const sill = 'size 2x6 set-back 3/4" headroom 25-1/8"';

export const kindsMixedInLine = defineRule({
  id: 'anchorage/kinds-mixed-in-line',
  severity: 'info',
  on: 'wall',
  besides: 'along-line',
  summary: 'New bolts and new side plates share one line.',
  why: 'A plate gives before a bolt does, so the stiffer ones take their load first. Many officials accept a mixture that goes by boards.',
  remedy: 'Keep one kind on each board, say so in a note, and ask the official.',
  subjects: {},
  examples: [
    {
      failing: demo({ anchors: sound, sill, connectors: ['bolt-half', 'bolt-half', 'stepped-plate-s'] }),
      passing: demo({ anchors: sound, sill, connectors: ['bolt-half'] }),
    },
  ],
  check({ wall }, context) {
    const { layout } = context;
    if (!speaksForLine(layout, wall)) return;
    const counted = [wall, ...othersOfLine(layout, wall)].flatMap((each) =>
      each.pieces.flatMap((piece) =>
        anchorsOf(each, piece).flatMap((anchor) =>
          anchor.planned?.connector
            ? [{ wall: each, piece, anchor, planned: anchor.planned, kind: kindOf(anchor.planned.connector.kind) }]
            : [],
        ),
      ),
    );
    const bolts = counted.filter((each) => each.kind === 'bolt');
    const plates = counted.filter((each) => each.kind === 'plate');
    const [bolt] = bolts;
    const [plate] = plates;
    if (!bolt || !plate) return;
    const boards = new Map<string, Set<string>>();
    for (const each of counted) {
      const kinds = boards.get(each.piece.id) ?? new Set();
      boards.set(each.piece.id, kinds.add(each.kind));
    }
    const mixed = counted.find((each) => (boards.get(each.piece.id)?.size ?? 0) > 1)?.piece;
    const line = lineOf(layout, wall);
    const fewer = bolts.length < plates.length ? bolts : plates;
    context.report({
      message:
        `${line ? `Line ${line.name}` : `Wall ${wall.name}`} mixes ${bolts.length} ${bolts.length === 1 ? 'bolt' : 'bolts'} and ` +
        `${plates.length} side ${plates.length === 1 ? 'plate' : 'plates'}${mixed ? `, sill ${mixed.name} both` : ', one kind on each board'}; they give differently under load ` +
        `(common practice, no source). ${mixed ? 'Group them by board and ask the official.' : 'Ask the official, and accept this with the answer.'}`,
      thing: wall.id,
      layer: 'design',
      span: wall.nameSource,
      related: [
        { span: bolt.anchor.span, message: `a bolt, ${bolt.anchor.words}` },
        { span: plate.anchor.span, message: `a side plate, ${plate.anchor.words}` },
      ],
      fixes: (now) =>
        fewer.length === 1 && fewer[0]?.wall === wall
          ? changeConnector(now, wall, fewer[0].piece, fewer[0].planned)
          : [],
    });
  },
});

const kindOf = (kind: string): 'bolt' | 'plate' => (kind === 'through-bolt' ? 'bolt' : 'plate');
