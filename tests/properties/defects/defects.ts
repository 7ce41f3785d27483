import { alongABoard } from './along-a-board.ts';
import { clearance } from './clearance.ts';
import type { Defect } from './defect.ts';
import { floorAndPosts } from './floor-and-posts.ts';
import { foundation } from './foundation.ts';
import { papers } from './papers.ts';
import { rulesOfThePlace } from './rules-of-the-place.ts';
import { survey } from './survey.ts';

/** The ways in which people err on such a job, as far as these tests know them. */
export const defects: readonly Defect[] = [
  ...alongABoard,
  ...survey,
  ...clearance,
  ...foundation,
  ...floorAndPosts,
  ...papers,
  ...rulesOfThePlace,
];
