import type { LengthUnits } from '../model/layout.ts';
import type { Length } from '../units/length.ts';
import { millimetre, sixteenth } from '../units/length.ts';

/** What a tape can be marked to: stations that the tool proposes are whole multiples of it. */
export const tapeStep = (units: LengthUnits): Length => (units === 'metric' ? millimetre : sixteenth);
