import { createHash } from 'node:crypto';
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalMeaning, fingerprintOf, printFingerprint } from '../../../language/domain/documents/fingerprint.ts';
import { formatSheet } from '../../../language/syntax/format.ts';
import { applyChanges } from '../../../language/syntax/write-edit.ts';
import { readLayout } from '../../support/read-layout.ts';

const digest = (text: string): string => bytesToHex(sha256(utf8ToBytes(text)));

describe('the digest', () => {
  // FIPS 180-4, and the example computations that NIST publishes beside it ("SHA-256", csrc.nist.gov examples).
  it.each([
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
  ])('is that of the published example', (message, expected) => {
    expect(digest(message)).toBe(expected);
  });

  it('agrees with another implementation on any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(digest(text)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'));
      }),
    );
  });
});

const house = `layout "A house"
  rules existing-building, mine
  address "1 Example Lane"

house
  storeys 2

wall A faces north length 20'-0 1/8" adjusted 20'-0"
  foundation thick 6" showing 20" top 0" strength 2000 psi
  sill A1 set-back 1/2" headroom 25" corner note "soft at the end"
  vent V1 5'-0" to 6'-4"
  anchor X1 1/2" at 2'-0"

work on A
  anchor A-1 bolt-half at 1'-0"
  anchor A-2 bolt-half at 8'-0" proposed

ruleset mine "Mine"
  source "habit" common-practice
    limit sill-gap at-most 1/2"
    limit split-long at-most 6"
`;
const of = (text: string): string => fingerprintOf(readLayout(text).layout);
const first = of(house);
const replaced = (from: string, to: string): string => {
  if (!house.includes(from)) throw new Error(from);
  return house.replace(from, to);
};

describe('a fingerprint', () => {
  it('is eight hex digits, written in two groups', () => {
    expect(first).toMatch(/^[0-9a-f]{8}$/);
    expect(printFingerprint('7c1f09ab')).toBe('7c1f-09ab');
  });

  it('is the digest of the canonical meaning', () => {
    const meaning = canonicalMeaning(readLayout(house).layout);
    expect(createHash('sha256').update(meaning, 'utf8').digest('hex').slice(0, 8)).toBe(first);
    expect(meaning).toContain('"station":304800000');
    for (const key of ['block', 'typed', 'source', 'state']) expect(meaning.includes(`"${key}":`)).toBe(false);
  });

  it.each([
    ['in canonical format', applyChanges(house, formatSheet(house).changes)],
    [
      'with comments',
      house.replace('wall A', '// looked twice\nwall A').replace('"soft at the end"', '"soft at the end" // wet'),
    ],
    ['with other blanks', house.replaceAll('  anchor', '\t  anchor   ').replaceAll('\n\n', '\n\n\n')],
    ['with Windows line ends', house.replaceAll('\n', '\r\n')],
    ['with blocks in another order', house.replace(/(house\n {2}storeys 2\n\n)(wall A[\s\S]*?\n\n)/, '$2$1')],
    ['with attributes in another order', replaced('thick 6" showing 20"', 'showing 20" thick 6"')],
    ['with one length written another way', replaced(`at 8'-0"`, 'at 96"')],
    [
      'with limits in another order',
      replaced('    limit sill-gap at-most 1/2"\n', '').concat('    limit sill-gap at-most 1/2"\n'),
    ],
    ['with a record', `${house}\nrecord 2026-06-10\n  installed A-1 at 1'-1"\n  tested X1 pull 100 lb failed\n`],
    ['with an issue', `${house}\nissue 1 2026-05-02 fingerprint "7c1f-09ab"\n`],
    [
      'with a question and an accepted finding',
      replaced('  anchor X1', '  ask "how old"\n  accept anchorage/end-too-far because "agreed"\n  anchor X1'),
    ],
    ['with another address', replaced('1 Example Lane', '2 Example Lane')],
    ['with prices', `${house}\nprices p\n  price x $1\n`],
    ['with hardware that the design does not name', `${house}\nconnector other strap\n  demo\n`],
  ])('stays the same %s', (_what, text) => {
    expect(text).not.toBe(house);
    expect(of(text)).toBe(first);
  });

  it.each([
    ['one station by a sixteenth', replaced(`at 8'-0"`, `at 8'-0 1/16"`)],
    ['a value of a rule set', replaced('limit sill-gap at-most 1/2"', 'limit sill-gap at-most 5/8"')],
    ['what a limit rests on', replaced('source "habit" common-practice', 'source "a test" common-practice')],
    ['the rule sets', replaced('existing-building, mine', 'existing-building')],
    ['a reading of the survey', replaced('set-back 1/2"', 'set-back 9/16"')],
    ['how good a reading is', replaced('strength 2000 psi', 'strength assume 2000 psi')],
    ['a taped length', replaced(`20'-0 1/8"`, `20'-0 3/16"`)],
    ['storeys', replaced('storeys 2', 'storeys 1')],
    ['a mark', replaced('A-2', 'A-3')],
    ['a connector', replaced('A-1 bolt-half', 'A-1 bolt-five-eighths')],
    ['a note on a board', replaced('soft at the end', 'soft all along')],
    ['the face that lengths are read on', replaced('  address', '  face inside\n  address')],
    ['one thing less', replaced('  anchor X1 1/2" at 2\'-0"\n', '')],
    ['hardware that the design names', `${house}\nconnector bolt-half through-bolt\n  demo\n  body 3" wide 3" tall\n`],
  ])('changes with %s', (_what, text) => {
    expect(of(text)).not.toBe(first);
  });
});
