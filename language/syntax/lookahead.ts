import { LLkLookaheadStrategy } from 'chevrotain';

/**
 * Works out how to choose between alternatives when the parser first comes to them. To do it for the whole grammar at the
 * start takes half of the time that the parser needs to be ready.
 */
export class LazyLookahead extends LLkLookaheadStrategy {
  override buildLookaheadForAlternation(
    options: Parameters<LLkLookaheadStrategy['buildLookaheadForAlternation']>[0],
  ): ReturnType<LLkLookaheadStrategy['buildLookaheadForAlternation']> {
    const build = () => super.buildLookaheadForAlternation(options);
    let choose: ReturnType<typeof build> | undefined;
    // The parser calls it as its own method.
    return function (this: unknown, alternatives) {
      choose ??= build();
      return choose.call(this, alternatives);
    };
  }

  override buildLookaheadForOptional(
    options: Parameters<LLkLookaheadStrategy['buildLookaheadForOptional']>[0],
  ): ReturnType<LLkLookaheadStrategy['buildLookaheadForOptional']> {
    const build = () => super.buildLookaheadForOptional(options);
    let enter: ReturnType<typeof build> | undefined;
    return function (this: unknown) {
      enter ??= build();
      return enter.call(this);
    };
  }
}
