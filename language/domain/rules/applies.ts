import { lineOf } from '../fit/storeys.ts';
import type { Layout, Wall } from '../model/layout.ts';
import type { Rule } from './define.ts';

/**
 * Whether a rule looks at a wall at all. A line that is exempt, with its reason, is not asked for the work that it is exempt
 * from; what is planned there all the same still meets gas, power, stones and rot. A wall left alone with a reason, and a wall
 * inside the house without work on it, are not asked for anchors. Nothing switches a stop off.
 */
export function applies(rule: Rule, layout: Layout, wall: Wall): boolean {
  if (rule.severity === 'stop') return true;
  const onAnchorage = rule.id.startsWith('anchorage/');
  const exempt = lineOf(layout, wall)?.exempt?.from;
  if (exempt === 'all' && asksForWork.test(rule.id)) return false;
  if (exempt === 'anchorage' && onAnchorage) return false;
  // A wall left alone because its old anchors hold rests on them all the more.
  if (!onAnchorage || wall.anchors.length > 0 || rule.id.startsWith('anchorage/old-anchor-')) return true;
  return wall.noWork === undefined && wall.role === 'perimeter';
}

/** Rules that ask for work; the others look at what stands or is planned. */
const asksForWork = /^(anchorage|bracing|floor|load-path)\//;
