/**
 * A set-up file of the test runner: the check of the rule that SILLWRIGHT_EMPTY_RULE names says nothing. Only
 * `tests/properties/defects/emptied-rules.ts` uses it, to see that the tests notice.
 */
import { emptied } from './emptied.ts';

const id = process.env.SILLWRIGHT_EMPTY_RULE;
if (id === undefined) throw new Error('SILLWRIGHT_EMPTY_RULE names no rule');
emptied(id);
