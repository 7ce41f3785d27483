import type { Basis } from '../../documents/basis.ts';
import { countOf } from '../../documents/text-layout.ts';
import { serviceOf } from '../../fit/blocked-by-things.ts';
import { stretchWords } from '../../fit/thing-words.ts';
import type { FoundationStretch, Layout, LengthUnits, Obstruction, Stretch, Wall } from '../../model/layout.ts';
import type { Checked } from '../../rules/checked.ts';
import { formatStation } from '../../units/format-length.ts';
import { larger, smaller } from '../../units/length.ts';
import { serviceColour } from '../elevation-found.ts';
import { noHoleStretches, noHoleWords } from '../elevation-labels.ts';
import { plainText } from '../lettering.ts';
import { kindWords } from '../thing-names.ts';
import type { ColourToken } from '../tokens.ts';
import type { WallShape } from '../wall-shape.ts';

export interface Caution {
  readonly text: string;
  readonly colour: ColourToken;
  readonly heavy: boolean;
}

interface OnWall {
  readonly layout: Layout;
  readonly wall: Wall;
  readonly shape: WallShape;
  readonly checked: Checked;
  readonly basis: Basis;
  readonly units: LengthUnits;
}

/** What can hurt somebody on this wall, the worst first. An empty list clears nothing, and the last line says so. */
export function wallCautions(on: OnWall): readonly Caution[] {
  return [
    ...stops(on),
    ...on.wall.foundation.flatMap((stretch) => concreteCautions(stretch, on.units)),
    ...services(on),
    ...placeless(on),
    ...hot(on),
    ...foundWhileWorking(on),
    ...unplacedMarks(on),
    ...errors(on),
    quiet(steelWords(on.wall)),
    quiet('What is not listed is not cleared.'),
  ].filter(({ text }) => text !== '');
}

const loud = (text: string, colour: ColourToken): Caution => ({ text, colour, heavy: true });
const quiet = (text: string): Caution => ({ text, colour: 'ink', heavy: false });

/** Of this wall, and those of the house that belong to no wall. */
function stops({ checked, wall }: OnWall): readonly Caution[] {
  const texts = checked.findings
    .filter(({ severity, wall: of }) => severity === 'stop' && (of === undefined || of === wall.name))
    .map(({ message }) => plainText(message));
  const [first, ...rest] = [...new Set(texts)];
  if (first === undefined) return [];
  const more = rest.length === 0 ? '' : ` And ${countOf(rest.length, 'more stop')}: see the findings.`;
  return [loud(`STOP: ${first}${more}`, 'stop')];
}

function errors({ checked, wall }: OnWall): readonly Caution[] {
  const count = checked.findings.filter(
    ({ severity, accepted, wall: of }) => severity === 'error' && accepted === undefined && of === wall.name,
  ).length;
  return count === 0 ? [] : [quiet(`${countOf(count, 'error')} on this wall in the check: ask before the first hole.`)];
}

const MATERIALS: Readonly<Record<Exclude<FoundationStretch['material'], 'concrete'>, string>> = {
  brick: 'BRICK',
  stone: 'STONE',
  block: 'BLOCK',
  'wood-posts': 'WOOD POSTS',
};
const BRITTLE: ReadonlySet<string> = new Set(['cracked', 'crumbling', 'leaning', 'undermined']);

function concreteCautions(stretch: FoundationStretch, units: LengthUnits): readonly Caution[] {
  const where = stretchWords(stretch, units);
  const { material, steel, conditions } = stretch;
  const poor = conditions.filter((condition) => BRITTLE.has(condition));
  return [
    ...(steel === 'post-tensioned'
      ? [loud(`POST-TENSIONED ${where}: drill nothing. A cut tendon kills.`, 'stop')]
      : []),
    ...(material === 'concrete' ? [] : [loud(`${MATERIALS[material]} ${where}: no hammer drill, ask.`, 'stop')]),
    ...(poor.length === 0 ? [] : [loud(`Concrete ${poor.join(', ')} ${where}: do not hammer, ask.`, 'stop')]),
  ];
}

/** Bars are to be expected in any concrete; tendons where nobody looked. */
function steelWords({ foundation }: Wall): string {
  const silent = foundation.some(({ material, steel }) => material === 'concrete' && steel === undefined);
  if (silent) return 'Steel in the concrete not recorded: bars and tendons not ruled out.';
  return foundation.some(({ steel }) => steel === 'reinforced') ? 'Reinforced: expect bars.' : '';
}

function services(on: OnWall): readonly Caution[] {
  if (!on.wall.obstructions.some((thing) => serviceOf(thing)))
    return [quiet('No gas or power line is recorded on this wall; nobody has cleared it.')];
  return noHoleStretches(on).map((zone) => {
    const { where, why } = noHoleWords(zone, on.units);
    const near = zone.clear === undefined ? ' (how far is not given)' : '';
    return loud(`${where}${near}: ${why}: locate and expose both sides first.`, serviceColour(zone.reason));
  });
}

function placeless({ wall, units }: OnWall): readonly Caution[] {
  return wall.obstructions.flatMap((thing) => {
    const service = serviceOf(thing);
    if (thing.stretch || !service) return [];
    return [loud(`${nameOf(thing, units)}: PLACE NOT KNOWN. Locate and expose before any hole on this wall.`, 'power')];
  });
}

function hot({ wall, units }: OnWall): readonly Caution[] {
  return wall.obstructions.filter(({ kind }) => kind === 'flue').map((thing) => quiet(`Hot: ${nameOf(thing, units)}.`));
}

function nameOf({ name, kind, stretch }: Obstruction, units: LengthUnits): string {
  return [kindWords(kind), name === undefined ? '' : plainText(name), stretch ? stretchWords(stretch, units) : '']
    .filter((part) => part !== '')
    .join(' ');
}

/** What the record found on this wall, and the holes that were given up. */
function foundWhileWorking({ layout, wall, units, shape }: OnWall): readonly Caution[] {
  const own = wall.name.toLowerCase();
  const isHere = (name: string | undefined): boolean => name?.toLowerCase() === own;
  return layout.record.flatMap(({ date, events }) =>
    events.flatMap((event): readonly Caution[] => {
      if (event.kind === 'discovered' && isHere(event.on?.name)) {
        const where = event.stretch ? ` ${stretchWords(onIt(event.stretch, shape), units)}` : '';
        return [loud(`Found ${date}: ${plainText(event.text)}${where}.`, 'ink')];
      }
      if (event.kind === 'dead-hole' && isHere(event.on?.name)) {
        const where = event.station === undefined ? 'place not recorded' : formatStation(event.station, units);
        return [quiet(`Dead hole ${where}${event.state === undefined ? '' : `, ${event.state}`}.`)];
      }
      return [];
    }),
  );
}

const onIt = ({ from, to }: Stretch, { length }: WallShape): Stretch => ({
  from,
  to: smaller(to, larger(from, length)),
});

/** Nothing is dropped because nobody can place it. */
function unplacedMarks({ wall, shape }: OnWall): readonly Caution[] {
  const lost = [...wall.anchors, ...wall.ties].filter((mark) => {
    const station = mark.asBuilt?.station ?? mark.station;
    return station === undefined || station < 0 || station > shape.length;
  });
  const panels = wall.panels.filter(({ stretch }) => !stretch);
  const names = [...lost, ...panels].map(({ name }) => plainText(name));
  return names.length === 0
    ? []
    : [loud(`Cannot be placed, no station on this wall: ${names.join(', ')}. Ask.`, 'error')];
}
