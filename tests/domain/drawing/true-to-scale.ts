import type { Layout, Wall } from '../../../language/domain/model/layout.ts';
import type { DrawnInSvg, DrawnSign } from './svg-things.ts';

/** A place of a thing as its line says it, in true mm from station 0, and where its sign stands on paper. */
export interface StationOnPaper {
  readonly thing: string;
  readonly station: number;
  readonly x: number;
  readonly kind: 'anchor' | 'other';
}

const MILLIMETRE = 1_000_000;

/** Stations against x of everything on a wall that has one; what was built stands at its as-built station. */
export function stationsOnPaper(drawing: DrawnInSvg, wall: Wall): readonly StationOnPaper[] {
  const length = wall.length ?? 0;
  const isOn = (station: number | undefined): station is number =>
    station !== undefined && station >= 0 && station <= length;
  const signs = (thing: string): readonly DrawnSign[] =>
    (drawing.things.get(thing) ?? []).filter(({ symbol }) => symbol !== 'moved');
  const at = (thing: string, station: number, x: number, kind: StationOnPaper['kind']): StationOnPaper => ({
    thing,
    station: station / MILLIMETRE,
    x,
    kind,
  });
  return [
    ...[...wall.anchors, ...wall.ties].flatMap((mark) => {
      const station = mark.asBuilt?.station ?? mark.station;
      const [sign] = signs(mark.id);
      return isOn(station) && sign ? [at(mark.id, station, (sign.from + sign.to) / 2, 'anchor')] : [];
    }),
    // The ring of a found anchor stands over its station, however its rod is bent.
    ...wall.foundAnchors.flatMap((anchor) => {
      const ring = signs(anchor.id).find(({ symbol }) => symbol?.startsWith('found-anchor'))?.circles[0];
      return isOn(anchor.station) && ring !== undefined ? [at(anchor.id, anchor.station, ring, 'other')] : [];
    }),
    ...wall.obstructions
      .filter(({ kind }) => kind === 'vent' || kind === 'window' || kind === 'door' || kind === 'hatch')
      .flatMap(({ id, kind, stretch, remedied }) => {
        const opening = kind === 'hatch' ? 'door' : kind;
        const sign = signs(id).find(({ symbol }) => symbol === opening);
        if (!sign || !stretch || remedied || !isOn(stretch.from) || !isOn(stretch.to)) return [];
        return [at(id, stretch.from, sign.from, 'other'), at(id, stretch.to, sign.to, 'other')];
      }),
    ...wall.panels.flatMap(({ id, stretch }) => {
      const sign = signs(id).find(({ symbol }) => symbol?.startsWith('panel') || symbol === 'omitted');
      if (!sign || !stretch || !isOn(stretch.from) || !isOn(stretch.to)) return [];
      return [at(id, stretch.from, sign.from, 'other'), at(id, stretch.to, sign.to, 'other')];
    }),
  ];
}

/** Least squares: x = x0 + k * station. */
export function line(points: readonly Pick<StationOnPaper, 'station' | 'x'>[]): {
  readonly x0: number;
  readonly k: number;
  readonly worst: number;
} {
  const mean = (of: (point: Pick<StationOnPaper, 'station' | 'x'>) => number): number =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const [station, x] = [mean((point) => point.station), mean((point) => point.x)];
  const k =
    mean((point) => (point.station - station) * (point.x - x)) / mean((point) => (point.station - station) ** 2);
  const x0 = x - k * station;
  return { x0, k, worst: Math.max(...points.map((point) => Math.abs(point.x - x0 - k * point.station))) };
}

/** What of an elevation does not lie where its station and the stated scale put it; nothing where all does. */
export function scaleFaults(drawing: DrawnInSvg, wall: Wall, units: Layout['title']['units']): readonly string[] {
  const { ratio } = drawing;
  if (ratio === undefined) return ['no scale is stated'];
  const [tape] = drawing.tapes;
  if (!tape) return ['no tape'];
  const points = stationsOnPaper(drawing, wall);
  const faults: string[] = [];
  const anchors = points.filter(({ kind }) => kind === 'anchor');
  const stations = new Set(anchors.map(({ station }) => station));
  if (stations.size >= 2) {
    const fitted = line(anchors);
    if (fitted.worst >= 0.05) faults.push(`an anchor lies ${fitted.worst.toFixed(3)} mm off the line of its wall`);
    const span = Math.max(...stations) - Math.min(...stations);
    // Ends printed to a micrometre, over the span of the anchors.
    if (Math.abs(fitted.k - 1 / ratio) * span > 0.01)
      faults.push(`the slope is 1:${(1 / fitted.k).toFixed(3)}, stated is 1:${ratio}`);
  }
  for (const { thing, station, x } of points) {
    const off = x - tape.x0 - station / ratio;
    if (Math.abs(off) > 0.01) faults.push(`${thing} lies ${off.toFixed(3)} mm off its station`);
  }
  const step = units === 'metric' ? 10 : 25.4;
  for (const x of tape.ticks) {
    const steps = ((x - tape.x0) * ratio) / step;
    if (Math.abs(steps - Math.round(steps)) * (step / ratio) > 0.01) faults.push(`a tick lies at ${steps} steps`);
  }
  const wedge = units === 'metric' ? 400 : 16 * 25.4;
  tape.wedges.forEach((x, index) => {
    const off = x - tape.x0 - ((index + 1) * wedge) / ratio;
    if (Math.abs(off) > 0.01) faults.push(`wedge ${index + 1} lies ${off.toFixed(3)} mm off`);
  });
  return faults;
}
