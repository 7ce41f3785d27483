import { type ILookaheadStrategy, LLkLookaheadStrategy } from 'chevrotain';

type Alternation = ILookaheadStrategy['buildLookaheadForAlternation'];
type Optional = ILookaheadStrategy['buildLookaheadForOptional'];

/**
 * Works out how to choose between alternatives when the parser first comes to them: to do it for the whole grammar at the
 * start takes longer than all else that the parser needs to be ready. One token tells every two alternatives apart; a
 * test holds the grammar to it.
 */
export function lazyLookahead(): ILookaheadStrategy {
  const eager = new LLkLookaheadStrategy({ maxLookahead: 1 });
  return {
    validate: (grammar) => eager.validate(grammar),
    buildLookaheadForAlternation(options) {
      let choose: ReturnType<Alternation> | undefined;
      // The parser calls it as a method of its own.
      return function (this: unknown, alternatives) {
        choose ??= eager.buildLookaheadForAlternation(options);
        return choose.call(this, alternatives);
      };
    },
    buildLookaheadForOptional(options) {
      let enters: ReturnType<Optional> | undefined;
      return function (this: unknown) {
        enters ??= eager.buildLookaheadForOptional(options);
        return enters.call(this);
      };
    },
  };
}
