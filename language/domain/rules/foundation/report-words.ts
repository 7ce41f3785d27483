import type { Connector } from '../../hardware/connector.ts';

/** What a connector's numbers rest on. */
export function reportWords({ demo: invented, report, name }: Connector): string {
  if (invented) return `demo values of ${name}`;
  return report === undefined ? `no report given for ${name}` : `report ${report}`;
}
