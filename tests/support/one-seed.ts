import fc from 'fast-check';

/**
 * Every run of `npm test` takes the same random cases, so that a change is judged by what it changes; another seed is asked for by
 * SILLWRIGHT_SEED. The long proofs take new ones each time and say which.
 */
const asked = Number(process.env.SILLWRIGHT_SEED ?? Number.NaN);
fc.configureGlobal({ seed: Number.isInteger(asked) ? asked : 20_261_125 });
