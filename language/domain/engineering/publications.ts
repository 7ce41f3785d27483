import type { Trust } from '../rulesets/rule-set.ts';

/** Where a number or a formula comes from, and whether its text was read or remembered. */
export interface Section {
  readonly publication: PublicationName;
  /** For example `Eq. 12.3-1` or `Table 12.3.1B`. */
  readonly place: string;
  readonly trust: Trust;
}

export const publications = {
  'NDS 2018':
    'National Design Specification for Wood Construction, 2018 (2015 has the same numbers; 2005 and 2012 print chapter 12 as 11)',
  'SDPWS 2008': 'Special Design Provisions for Wind and Seismic, 2008',
  'SDPWS 2015': 'Special Design Provisions for Wind and Seismic, 2015',
  'SDPWS 2021': 'Special Design Provisions for Wind and Seismic, 2021',
  'ASCE 7-10': 'Minimum Design Loads for Buildings and Other Structures, ASCE/SEI 7-10',
  'ASCE 7-16': 'Minimum Design Loads and Associated Criteria for Buildings and Other Structures, ASCE/SEI 7-16',
  'ACI 318-19':
    'Building Code Requirements for Structural Concrete, ACI 318-19, chapter 17 (318-14 prints 17.4 for 17.6, 17.5 for 17.7)',
  'ASME B1.1': 'Unified Inch Screw Threads, ASME B1.1',
  'IBC 2021': 'International Building Code, 2021',
  'IBC 2006': 'International Building Code, 2006',
  'IRC 2021': 'International Residential Code, 2021',
  'IRC 2009': 'International Residential Code, 2009',
  'IEBC A1': 'International Existing Building Code, appendix chapter A1',
  'IEBC A3': 'International Existing Building Code, appendix chapter A3, 2021 numbering',
  'IEBC A4': 'International Existing Building Code, appendix chapter A4, older edition',
  'UBC 1997': 'Uniform Building Code, 1997',
  'Los Angeles standard plan': 'Los Angeles Municipal Code Division 92 and its standard retrofit plan',
  'Portland method': 'City of Portland, Oregon, residential seismic strengthening method',
  'Bay Area plan set': 'Bay Area standard plan set A, 2008',
  'San Francisco AB-107': 'San Francisco Administrative Bulletin AB-107, revision proposed in 2016',
  'Indiana residential code': 'Indiana Residential Code, 2020',
  'Navy builder manual': 'US Navy training manual for builders, advanced',
  'evaluation report': 'the evaluation report of the connector, as the hardware file gives it',
  "engineers' mailing list": "structural engineers' mailing-list archive",
  statics: 'equilibrium of the free body',
  'common practice': 'common practice, no source',
} as const satisfies Record<string, string>;
export type PublicationName = keyof typeof publications;

export const section = (publication: PublicationName, place: string, trust: Trust): Section => ({
  publication,
  place,
  trust,
});

/** `NDS 2018 Table 12.3.1B (from memory)`. */
export function citation(source: Section): string {
  return `${[source.publication, source.place].filter(Boolean).join(' ')}${trustNote[source.trust]}`;
}

const trustNote: Readonly<Record<Trust, string>> = {
  published: '',
  'from-memory': ' (from memory)',
  recalled: ' (recalled; confirm in your adopted copy)',
  'common-practice': ', no source',
};
