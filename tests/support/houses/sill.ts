import type { ConnectorName, PieceFacts, RunFacts } from './facts.ts';
import { FOOT, INCH, MILLIMETRE } from './facts.ts';
import type { HouseFrame, Level } from './foundation.ts';
import { foundationRun, heightFor, inches, onTape } from './foundation.ts';
import type { Random } from './random.ts';

export interface SillOfWall {
  readonly pieces: readonly PieceFacts[];
  readonly runs: readonly RunFacts[];
  /** Chimneys and doors where the sill stops and goes on. */
  readonly holes: readonly { readonly from: number; readonly to: number }[];
}

/** The boards of a wall from corner to corner, and the stem wall under them. A step in the concrete is a joint of the sill. */
export function sillOfWall(
  random: Random,
  frame: HouseFrame,
  wall: { readonly name: string; readonly length: number },
): SillOfWall {
  const cuts = cutsOf(random, frame, wall.length);
  const runs = runsOf(random, frame, wall.length, cuts);
  const named = random.chance(0.85);
  const pieces: PieceFacts[] = [];
  let from = 0;
  for (const [index, cut] of [...cuts, undefined].entries()) {
    const to = cut?.at ?? wall.length;
    const run = runs.findIndex((each) => each.from <= from && to <= each.to);
    const on = runs[run];
    const connector = connectorFor(random, on);
    const setBack = setBackFor(random, frame, connector, on);
    pieces.push({
      name: named ? `${wall.name}${index + 1}` : undefined,
      from,
      to,
      setBack,
      headroom: headroomOver(frame, on),
      joint: cut?.joint ?? 'corner',
      jointLength: cut?.lap,
      gap: cut?.gap,
      connector,
      run,
    });
    from = to - (cut?.lap ?? 0) + (cut?.hole ?? 0);
  }
  const holes = cuts.flatMap(({ at, hole }) => (hole === undefined ? [] : [{ from: at, to: at + hole }]));
  return { pieces, runs, holes };
}

interface Cut {
  readonly at: number;
  readonly joint: Exclude<PieceFacts['joint'], 'corner'>;
  readonly lap: number | undefined;
  readonly gap: number | undefined;
  readonly hole: number | undefined;
}

/** Boards of 3 to 18 ft. */
function cutsOf(random: Random, frame: HouseFrame, length: number): readonly Cut[] {
  const cuts: Cut[] = [];
  let from = 0;
  for (;;) {
    const left = length - from;
    if (left <= 10 * FOOT || (left <= 18 * FOOT && random.chance(0.5))) return cuts;
    const board = inches(frame, random.integer(5 * 12, Math.min(17 * 12, Math.floor(left / INCH) - 60)));
    const at = from + board;
    const joint = random.pick<Cut['joint']>(['butt', 'butt', 'butt', 'half-lap', 'scarf', 'step', 'step', 'hole']);
    const roomForHole = length - at > 9 * FOOT;
    const kind = joint === 'hole' && !roomForHole ? 'butt' : joint;
    const lap = kind === 'half-lap' ? inches(frame, 4) : kind === 'scarf' ? inches(frame, 6) : undefined;
    const hole = kind === 'hole' ? inches(frame, random.integer(30, 54)) : undefined;
    const gap = kind === 'butt' && random.chance(0.3) ? onTape(frame, 0.375 * INCH) : undefined;
    cuts.push({ at, joint: kind, lap, gap, hole });
    from = at - (lap ?? 0) + (hole ?? 0);
  }
}

function runsOf(random: Random, frame: HouseFrame, length: number, cuts: readonly Cut[]): readonly RunFacts[] {
  const steps = cuts.filter((cut) => cut.joint === 'step').map((cut) => cut.at);
  const ends = [...steps, length];
  let level = random.pick<Level>(['none', 'none', 'low', 'tall', 'tall']);
  let height = heightFor(random, frame, level);
  const runs: RunFacts[] = [];
  let from = 0;
  for (const to of ends) {
    const boards = cuts.filter((cut) => cut.at > from && cut.at < to).length + 1;
    runs.push(foundationRun(random, frame, { from, to, level, height, mayslope: boards === 1 }));
    const right = frame.floorUnderside - (runs.at(-1)?.top[1] ?? 0);
    // A step is a jump of at least 7 in.
    do {
      level = random.pick<Level>(['none', 'low', 'tall', 'tall']);
      height = heightFor(random, frame, level);
    } while (Math.abs(height - right) < 7 * INCH);
    from = to;
  }
  return runs;
}

/** Below a cripple wall to the plates, else to the floor between the joists. */
function headroomOver(frame: HouseFrame, run: RunFacts | undefined): readonly [number, number] {
  return run?.cripple?.studHeight ?? [frame.joistDepth, frame.joistDepth];
}

function connectorFor(random: Random, run: RunFacts | undefined): ConnectorName {
  const least = Math.min(...(run?.cripple?.studHeight ?? [0]));
  if (least >= 24 * INCH && random.chance(0.85)) return 'bolt-half';
  return random.pick<ConnectorName>(['flat-plate', 'stepped-plate-s', 'stepped-plate-s', 'stepped-plate-l']);
}

/** Within the connector's range at both ends, which differ by no more than 3/8 in. */
export function setBackFor(
  random: Random,
  frame: HouseFrame,
  connector: ConnectorName,
  run: RunFacts | undefined,
): readonly [number, number] {
  const [least, most] = rangeOf(connector, run?.thick ?? 0);
  const step = frame.units === 'metric' ? MILLIMETRE : INCH / 16;
  const first = Math.ceil(least / step);
  const last = Math.floor(most / step);
  const left = random.integer(first, last);
  const right = random.chance(0.7) ? left : random.integer(Math.max(first, left - 4), Math.min(last, left + 4));
  return [left * step, right * step];
}

function rangeOf(connector: ConnectorName, thick: number): readonly [number, number] {
  switch (connector) {
    case 'flat-plate':
      return [0, INCH / 8];
    case 'stepped-plate-s':
      return [INCH / 2, 1.5 * INCH];
    case 'stepped-plate-l':
      return [1.5 * INCH, 2.25 * INCH];
    // A bolt 3-1/2 in from the inner edge of the sill keeps 2 in to the outer face of the concrete.
    case 'bolt-half':
      return [0, Math.max(0, Math.min(2 * INCH, thick - 5.75 * INCH))];
  }
}
