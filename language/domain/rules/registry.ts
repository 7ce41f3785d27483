import { bayCentreOff } from './anchorage/bay-centre-off.ts';
import { cornerAnchorShared } from './anchorage/corner-anchor-shared.ts';
import { cornerHolesClash } from './anchorage/corner-holes-clash.ts';
import { endTooFar } from './anchorage/end-too-far.ts';
import { endTooNear } from './anchorage/end-too-near.ts';
import { fewAnchorsInPanel } from './anchorage/few-anchors-in-panel.ts';
import { gapTooTight } from './anchorage/gap-too-tight.ts';
import { gapTooWide } from './anchorage/gap-too-wide.ts';
import { kindsMixedInLine } from './anchorage/kinds-mixed-in-line.ts';
import { lapEndMisread } from './anchorage/lap-end-misread.ts';
import { lineCountShort } from './anchorage/line-count-short.ts';
import { oldAnchorOvercounted } from './anchorage/old-anchor-overcounted.ts';
import { oldAnchorUnproven } from './anchorage/old-anchor-unproven.ts';
import { pieceWithoutAnchor } from './anchorage/piece-without-anchor.ts';
import { shortPieceCount } from './anchorage/short-piece-count.ts';
import { stepSideBare } from './anchorage/step-side-bare.ts';
import { straddlesBreak } from './anchorage/straddles-break.ts';
import { movedOutOfPlace } from './as-built/moved-out-of-place.ts';
import { accessTooSmall } from './clearance/access-too-small.ts';
import { boltUnderStud } from './clearance/bolt-under-stud.ts';
import { flueTooClose } from './clearance/flue-too-close.ts';
import { gasNearDrill } from './clearance/gas-near-drill.ts';
import { headRoomShort } from './clearance/head-room-short.ts';
import { noConcreteHere } from './clearance/no-concrete-here.ts';
import { nutHitsPanel } from './clearance/nut-hits-panel.ts';
import { oldAnchorInWay } from './clearance/old-anchor-in-way.ts';
import { panelHidesService } from './clearance/panel-hides-service.ts';
import { panelHitsThing } from './clearance/panel-hits-thing.ts';
import { panelWontGoIn } from './clearance/panel-wont-go-in.ts';
import { plateHitsThing } from './clearance/plate-hits-thing.ts';
import { powerNearDrill } from './clearance/power-near-drill.ts';
import { sideRoomShort } from './clearance/side-room-short.ts';
import { wrenchNoSwing } from './clearance/wrench-no-swing.ts';
import type { Rule } from './define.ts';
import { acceptUnused } from './document/accept-unused.ts';
import { angleGapWide } from './floor/angle-gap-wide.ts';
import { bayTooNarrow } from './floor/bay-too-narrow.ts';
import { bayUnblocked } from './floor/bay-unblocked.ts';
import { coldJointNear } from './foundation/cold-joint-near.ts';
import { concreteEdgeThin } from './foundation/concrete-edge-thin.ts';
import { concreteSoft } from './foundation/concrete-soft.ts';
import { concreteTooLow } from './foundation/concrete-too-low.ts';
import { crackNearAnchor } from './foundation/crack-near-anchor.ts';
import { embedShort } from './foundation/embed-short.ts';
import { expansionNearEdge } from './foundation/expansion-near-edge.ts';
import { holeTooDeep } from './foundation/hole-too-deep.ts';
import { masonryBase } from './foundation/masonry-base.ts';
import { postTensionSlab } from './foundation/post-tension-slab.ts';
import { setBackOutOfRange } from './foundation/set-back-out-of-range.ts';
import { setBackVaries } from './foundation/set-back-varies.ts';
import { shimMissing } from './foundation/shim-missing.ts';
import { sillNearGrade } from './foundation/sill-near-grade.ts';
import { sillRotten } from './foundation/sill-rotten.ts';
import { sillSplit } from './foundation/sill-split.ts';
import { sillStackLoose } from './foundation/sill-stack-loose.ts';
import { sillThin } from './foundation/sill-thin.ts';
import { woodEdgeThin } from './foundation/wood-edge-thin.ts';
import { assumptionLive } from './geometry/assumption-live.ts';
import { itemOnMissingSill } from './geometry/item-on-missing-sill.ts';
import { joistCountOdd } from './geometry/joist-count-odd.ts';
import { levelChainBroken } from './geometry/level-chain-broken.ts';
import { mustHaveMissing } from './geometry/must-have-missing.ts';
import { outlineOpen } from './geometry/outline-open.ts';
import { sillGapOrOverlap } from './geometry/sill-gap-or-overlap.ts';
import { spansDoNotAdd } from './geometry/spans-do-not-add.ts';
import { stationsFromWrongEnd } from './geometry/stations-from-wrong-end.ts';
import { stepWithoutBreak } from './geometry/step-without-break.ts';
import { unitSuspect } from './geometry/unit-suspect.ts';
import { wallsCounterClockwise } from './geometry/walls-counter-clockwise.ts';
import { ruleCrashed } from './internal/rule-crashed.ts';
import { connectorMisplaced } from './load-path/connector-misplaced.ts';
import { limitOutranked } from './load-path/limit-outranked.ts';
import { limitsDisagree } from './load-path/limits-disagree.ts';
import { noLimit } from './load-path/no-limit.ts';
import { rulesUnset } from './load-path/rules-unset.ts';
import { wallLineForgotten } from './load-path/wall-line-forgotten.ts';
import { anchorNotInReport } from './material/anchor-not-in-report.ts';
import { washerSmall } from './material/washer-small.ts';
import { capSizeClash } from './post/cap-size-clash.ts';
import { hardwareMisplaced } from './post/hardware-misplaced.ts';
import { postCapMissing } from './post/post-cap-missing.ts';
import { screeningConcreteSoft } from './screening/concrete-soft.ts';
import { crippleSheathedAlready } from './screening/cripple-sheathed-already.ts';
import { crippleTooTall } from './screening/cripple-too-tall.ts';
import { dwellingsBeyond } from './screening/dwellings-beyond.ts';
import { floorsSplit } from './screening/floors-split.ts';
import { foundationNotContinuous } from './screening/foundation-not-continuous.ts';
import { foundationPartial } from './screening/foundation-partial.ts';
import { hazardZone } from './screening/hazard-zone.ts';
import { screeningMasonryBase } from './screening/masonry-base.ts';
import { planIrregular } from './screening/plan-irregular.ts';
import { screeningPostTension } from './screening/post-tension.ts';
import { slabPart } from './screening/slab-part.ts';
import { slopeBeyond } from './screening/slope-beyond.ts';
import { storeysBeyond } from './screening/storeys-beyond.ts';
import { veneerHigh } from './screening/veneer-high.ts';
import { weightClassHeavy } from './screening/weight-class-heavy.ts';

/** Every rule. Those on the house hear what came before them, so the ones that tell of it stand last. */
export const rules: readonly Rule[] = [
  itemOnMissingSill,
  joistCountOdd,
  levelChainBroken,
  mustHaveMissing,
  sillGapOrOverlap,
  stationsFromWrongEnd,
  stepWithoutBreak,
  bayCentreOff,
  cornerAnchorShared,
  cornerHolesClash,
  endTooFar,
  endTooNear,
  fewAnchorsInPanel,
  gapTooTight,
  gapTooWide,
  kindsMixedInLine,
  lapEndMisread,
  lineCountShort,
  oldAnchorOvercounted,
  oldAnchorUnproven,
  pieceWithoutAnchor,
  shortPieceCount,
  stepSideBare,
  straddlesBreak,
  boltUnderStud,
  flueTooClose,
  gasNearDrill,
  headRoomShort,
  noConcreteHere,
  nutHitsPanel,
  oldAnchorInWay,
  panelHidesService,
  panelHitsThing,
  panelWontGoIn,
  plateHitsThing,
  powerNearDrill,
  sideRoomShort,
  wrenchNoSwing,
  coldJointNear,
  concreteEdgeThin,
  concreteSoft,
  concreteTooLow,
  crackNearAnchor,
  embedShort,
  expansionNearEdge,
  holeTooDeep,
  masonryBase,
  postTensionSlab,
  setBackOutOfRange,
  setBackVaries,
  shimMissing,
  sillNearGrade,
  sillRotten,
  sillSplit,
  sillStackLoose,
  sillThin,
  woodEdgeThin,
  crippleSheathedAlready,
  crippleTooTall,
  foundationPartial,
  angleGapWide,
  bayTooNarrow,
  bayUnblocked,
  anchorNotInReport,
  washerSmall,
  connectorMisplaced,
  wallLineForgotten,
  movedOutOfPlace(() => rules),
  accessTooSmall,
  screeningConcreteSoft,
  dwellingsBeyond,
  floorsSplit,
  foundationNotContinuous,
  hazardZone,
  screeningMasonryBase,
  planIrregular,
  screeningPostTension,
  slabPart,
  slopeBeyond,
  storeysBeyond,
  veneerHigh,
  weightClassHeavy,
  capSizeClash,
  hardwareMisplaced,
  postCapMissing,
  assumptionLive,
  outlineOpen,
  spansDoNotAdd,
  unitSuspect,
  wallsCounterClockwise,
  limitsDisagree,
  limitOutranked,
  noLimit,
  rulesUnset,
  acceptUnused,
  ruleCrashed,
];
