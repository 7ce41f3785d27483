import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Connector } from '../hardware/connector.ts';
import type { Layout, Stretch } from '../model/layout.ts';
import type { Profile } from '../model/reading.ts';
import { withEnds } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';

/**
 * Tells one state of a design from another: the first eight hex digits of the SHA-256 (FIPS 180-4) of what survey, design, the
 * hardware that the design names and the rule sets in force mean. How their text is set, where it stands, comments, what was
 * asked, accepted, recorded or issued are no part of it.
 */
export function fingerprintOf(layout: Layout): string {
  return bytesToHex(sha256(utf8ToBytes(canonicalMeaning(layout)))).slice(0, 8);
}

/** As an `issue` block writes it: `7c1f-09ab`. */
export function printFingerprint(fingerprint: string): string {
  return `${fingerprint.slice(0, 4)}-${fingerprint.slice(4)}`;
}

/** JSON with sorted keys, lengths in whole nanometres and quantities in base units. */
export function canonicalMeaning(layout: Layout): string {
  const { title, house, walls, lines, girders, spaces, rules } = layout;
  const survey = { face: title.face, engineered: title.engineered, house, lines, girders, spaces, walls };
  const limits = rules.limits.map((limit) => JSON.stringify(meaningOf(limit))).sort();
  return JSON.stringify([
    meaningOf(survey),
    usedConnectors(layout).map((connector) => meaningOf({ ...connector, asConnector: true })),
    rules.chosen.map((ruleSet) => ruleSet.name.toLowerCase()),
    limits,
  ]);
}

function usedConnectors({ connectors, walls, girders }: Layout): readonly Connector[] {
  const names = new Set<string>();
  const add = (name: string | undefined): void => {
    if (name !== undefined) names.add(name.toLowerCase());
  };
  for (const wall of walls) {
    for (const each of [...wall.anchors, ...wall.angles, ...wall.ties]) add(each.connectorName);
    for (const each of wall.anchors) for (const added of each.withHardware ?? []) add(added.name);
    for (const each of wall.remedies) if ('connectorName' in each) add(each.connectorName);
  }
  for (const girder of girders) {
    for (const post of girder.posts) for (const each of post.hardware) add(each.connectorName);
  }
  return [...names].sort().flatMap((name) => connectors.get(name) ?? []);
}

/** Left out: where text stands, how a value was typed, what follows from the record, and names that are derived. */
const NO_MEANING: ReadonlySet<string> = new Set([
  'typed',
  'id',
  'workBlocks',
  'accepted',
  'state',
  'asBuilt',
  'deadHoles',
  'asConnector',
  'sourceMap',
]);

function meaningOf(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (value instanceof Map) return meaningOf(Object.fromEntries(value));
  if (value instanceof Set) return [...value].map(meaningOf).sort();
  if (Array.isArray(value)) return value.map(meaningOf);
  if (isSpan(value)) return undefined;
  if (isConnector(value)) return value.name.toLowerCase();
  const isQuantity = 'dimension' in value && 'amount' in value;
  const entries = Object.entries(value)
    .filter(
      ([key, each]) => each !== undefined && !NO_MEANING.has(key) && !isSpan(each) && !(isQuantity && key === 'unit'),
    )
    .map(([key, each]) => [key, key === 'states' ? asFound(each) : meaningOf(throughout(each, value))] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(entries);
}

/** A level profile means its value at both ends of its stretch, however many points it is kept in. */
function throughout(value: unknown, stretch: object): unknown {
  return isProfile(value) && isStretch(stretch) ? withEnds(value, stretch) : value;
}

/** `failed` is what the record says of an old anchor. */
function asFound(states: unknown): unknown {
  return Array.isArray(states) ? states.filter((state) => state !== 'failed') : states;
}

function isSpan(value: unknown): value is SourceSpan {
  return typeof value === 'object' && value !== null && 'block' in value && 'start' in value && 'end' in value;
}

/** A connector stands among those used; elsewhere its name is enough. */
function isConnector(value: object): value is Connector {
  return 'fasteners' in value && 'capacities' in value && !('asConnector' in value);
}

function isProfile(value: unknown): value is Profile {
  return typeof value === 'object' && value !== null && 'points' in value && Array.isArray(value.points);
}

function isStretch(value: object): value is Stretch {
  return 'from' in value && 'to' in value && typeof value.from === 'number' && typeof value.to === 'number';
}
