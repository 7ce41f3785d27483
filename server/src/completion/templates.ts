import type { BlockWord } from '../../../language/syntax/words.ts';

/** A line or block with places to fill in, in the snippet notation of the editor protocol. */
export interface Template {
  readonly label: string;
  readonly detail: string;
  readonly body: string;
}

/** Whole blocks, at the start of a line. */
export const blockTemplates: readonly Template[] = [
  {
    label: 'layout …',
    detail: 'title block of a new house',
    body: `layout "${hole(1, 'Name of the job')}"\n  units ${choice(2, 'feet-inches', 'metric')}\n  face ${choice(3, 'outside', 'inside')}\n  rules ${hole(4, 'existing-building')}\n  surveyed ${hole(5, 'unknown')}\n`,
  },
  {
    label: 'house …',
    detail: 'what screening asks of the house',
    body: `house\n  storeys ${hole(1, 'unknown')}\n  dwellings ${hole(2, 'unknown')}\n  slope ${hole(3, 'unknown')}\n  floors ${hole(4, 'unknown')}\n  foundation ${hole(5, 'unknown')}\n`,
  },
  {
    label: 'wall …',
    detail: 'a wall, taped from its left end, seen from inside',
    body: `wall ${hole(1, 'A')} turn ${choice(2, 'right', 'left', 'straight')} length ${hole(3, 'unknown')}\n  foundation  thick ${hole(4, 'unknown')}  showing ${hole(5, 'unknown')}  top ${hole(6, 'unknown')}\n  sill ${hole(1, 'A')}1  to end  set-back ${hole(7, 'unknown')}  headroom ${hole(8, 'unknown')}  corner\n`,
  },
  {
    label: 'work on …',
    detail: 'what will be built on a wall',
    body: `work on ${hole(1, 'A')}\n  anchor ${hole(2, 'A-1')} ${hole(3, 'connector')} at ${hole(4)}\n`,
  },
  {
    label: 'record …',
    detail: 'what was done on one day',
    body: `record ${hole(1, 'date')} by "${hole(2, 'crew')}"\n  installed ${hole(3, 'A-1')} as planned\n`,
  },
];

/** Lines by the block that they stand in. */
export const lineTemplates: Partial<Record<BlockWord, readonly Template[]>> = {
  wall: [
    {
      label: 'sill …',
      detail: 'one board, from where the last one ended',
      body: `sill ${hole(1, 'name')}  to ${hole(2)}  set-back ${hole(3, 'unknown')}  headroom ${hole(4, 'unknown')}  ${choice(5, 'butt', 'half-lap', 'scarf', 'step', 'corner')}`,
    },
    {
      label: 'cripple …',
      detail: 'a cripple wall',
      body: `cripple to ${hole(1, 'end')} height ${hole(2, 'unknown')} stud-height ${hole(3, 'unknown')} ${choice(4, 'double', 'single')} plate`,
    },
    {
      label: 'vent …',
      detail: 'an opening in the foundation',
      body: `vent ${hole(1, 'V1')}  ${hole(2)} to ${hole(3)}`,
    },
    {
      label: 'anchor …',
      detail: 'an anchor that was found',
      body: `anchor ${hole(1, 'X1')} ${hole(2, 'unknown')} at ${hole(3)}`,
    },
  ],
  work: [
    {
      label: 'panel …',
      detail: 'a bracing panel',
      body: `panel ${hole(1, 'P1')} ${hole(2)} to ${hole(3)} plywood ${hole(4, '15/32"')} nails 8d edge ${hole(5, '4"')} field ${hole(6, '12"')}`,
    },
    {
      label: 'accept …',
      detail: 'a finding that you looked at, with the reason',
      body: `accept ${hole(1, 'rule')} because "${hole(2, 'reason')}"`,
    },
  ],
  record: [
    {
      label: 'omitted …',
      detail: 'a mark that was left out',
      body: `omitted ${hole(1, 'mark')} because "${hole(2, 'reason')}"`,
    },
    {
      label: 'tested …',
      detail: 'a test of an anchor',
      body: `tested ${hole(1, 'mark')} ${choice(2, 'torque', 'pull')} ${hole(3)} ${choice(4, 'passed', 'failed')}`,
    },
  ],
};

/** A place to fill in, with what stands there until then. */
function hole(number: number, text = ''): string {
  return text === '' ? `$${number}` : `\${${number}:${text}}`;
}

/** A place to fill in with one of some words. */
function choice(number: number, ...words: readonly string[]): string {
  return `\${${number}|${words.join(',')}|}`;
}
