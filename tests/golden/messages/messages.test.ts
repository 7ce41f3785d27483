import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { rules } from '../../../language/domain/rules/registry.ts';
import { analyse } from '../../support/analyse.ts';

/** What each rule says of its own failing examples, once for each of its wordings. */
const messages = rules.map((rule) => {
  const said = rule.examples.flatMap(({ failing }) =>
    analyse(failing)
      .findings.filter((finding) => finding.rule === rule.id)
      .map(({ severity, message }) => ({ severity, message })),
  );
  return { id: rule.id, said };
});

// As wide as a report on paper: a message that takes more than two such lines is not read to its end.
const longest = 2 * 112;

describe('the messages of the rules', () => {
  it('are those that were read aloud', async () => {
    const text = messages
      .map(({ id, said }) => [id, ...said.map(({ severity, message }) => `  ${severity}: ${message}`)].join('\n'))
      .join('\n\n');
    await expect(`${text}\n`).toMatchFileSnapshot(join(import.meta.dirname, 'messages.txt'));
  });

  it.each(messages)('of $id fit on two lines, end with a full stop, and tell nobody off', ({ said }) => {
    for (const { message } of said) {
      expect(message.length).toBeLessThanOrEqual(longest);
      expect(message).toMatch(/^[A-Z0-9"`'-].*[.]$|^[a-z0-9-]+ .*[.]$/s);
      expect(message).not.toMatch(/\b(invalid|illegal|please|error)\b/i);
    }
  });

  it('say where their limit comes from, wherever they name one', () => {
    const bare = messages.flatMap(({ id, said }) =>
      said.flatMap(({ message }) => (/: at (least|most) [^(]*\./.test(message) && !message.includes('(') ? [`${id}: ${message}`] : [])),
    );
    expect(bare).toEqual([]);
  });
});
