import {
  clip,
  difference,
  type IntervalSet,
  intersection,
  isNowhere,
  reachedFromTheLeft,
  union,
} from './interval-set.ts';
import {
  belowOf,
  clipPull,
  evenPull,
  firstPlace,
  isNoPull,
  leastOf,
  leastToTheRight,
  lowerOf,
  type Pull,
  pullOn,
  sumOn,
} from './pull.ts';

/**
 * What a label knows of the places where its leftmost anchor can stand: only the set (to find the cost and the slack), or
 * also how far the best placement from each place strays from the preferred stations. One search serves both.
 */
export interface Reach<P> {
  /** All of `domain`, as the last anchor. */
  on(domain: IntervalSet, pull: Pull): P;
  /** All of `domain` from which a place of `right` lies between `least` and `greatest` to the right. */
  leftOf(right: P, least: number, greatest: number, domain: IntervalSet, pull: Pull): P;
  /** A stop with this much pull so far; its place is known, so it is kept at place 0. */
  stop(pull: number): P;
  /** All of `domain`, as the neighbour of a stop. */
  besideStop(stop: P, domain: IntervalSet, pull: Pull): P;
  within(places: P, least: number, greatest: number): P;
  onlyOn(places: P, allowed: IntervalSet): P;
  either(a: P, b: P): P;
  /** What `b` does not serve at least as well. */
  without(a: P, b: P): P;
  isEmpty(places: P): boolean;
  leastPull(places: P): number;
  /** Numbers that it takes to hold them. */
  size(places: P): number;
  /** The first place in the range from which no more than this pull is needed. */
  first(places: P, least: number, greatest: number, atMost: number): number | undefined;
}

export const setReach: Reach<IntervalSet> = {
  on: (domain) => domain,
  leftOf: (right, least, greatest, domain) => intersection(reachedFromTheLeft(right, least, greatest), domain),
  stop: () => [0, 0],
  besideStop: (_stop, domain) => domain,
  within: clip,
  onlyOn: intersection,
  either: union,
  without: difference,
  isEmpty: isNowhere,
  leastPull: () => 0,
  size: (places) => places.length,
  first: (places, least, greatest) => clip(places, least, greatest)[0],
};

export const pullReach: Reach<Pull> = {
  on: (domain, pull) => sumOn(domain, evenPull(domain, 0), pull),
  leftOf: (right, least, greatest, domain, pull) => sumOn(domain, leastToTheRight(right, least, greatest), pull),
  stop: (pull) => [0, 0, pull, 0],
  besideStop: (stop, domain, pull) => sumOn(domain, evenPull(domain, leastOf(stop)), pull),
  within: clipPull,
  onlyOn: (places, allowed) => pullOn(allowed, places),
  either: lowerOf,
  without: belowOf,
  isEmpty: isNoPull,
  leastPull: leastOf,
  size: (places) => places.length,
  first: firstPlace,
};
