// Written by scripts/generate-library.ts from language/library: edit the .sill files, not this.
/** Shipped files by name; a layout may use what is in them without `use`. */
export const libraryTexts: ReadonlyMap<string, string> = new Map([
  ['bay-area', `// Bay Area: standard plan set A (2008), for houses of one and two storeys.
// Numbers only, none of the wording. Where this file is silent nothing is checked, and the findings say so.
//
// published: the text was read. from-memory: not read again, sure. recalled: not read again, less sure, or found only in a
// text about it; it prints as "recalled; confirm in your adopted copy".
//
// It takes anchors and panels from a schedule by floor area, which is not here: neither spacing nor counts have a limit.

ruleset bay-area "Bay Area standard plan set A, 2008"

  note "The local building official and licensed professionals always win."

  source "plan set A, who can use it" published
    limit   storeys             at-most 2 otherwise stop
    limit   dwellings           at-most 2 otherwise stop
    limit   cripple-overall     under 4'-0" otherwise stop
    limit   perimeter-concrete  required otherwise stop note "chimney and porch aside"
    limit   veneer-height       under 4'-0" otherwise stop note "above the foundation"

  source "plan set A, basis of design" published
    limit   panel-shear             is 380 plf  for nail 8d, edge-nails 4" note "rated sheathing"
    limit   response-modification   is 5.5
    limit   redundancy              is 1
    limit   near-source-factor      is 1.3
`],
  ['existing-building', `// Existing-building code appendix for wood-framed houses: bracing and anchoring of cripple walls and sills
// (chapter A3, 2018 and 2021 numbering). Numbers only, none of the code's wording.
//
// published: the text was read. from-memory: not read again, sure. recalled: not read again, less sure; it prints as
// "recalled; confirm in your adopted copy". Common practice has a file of its own, shop-limits.
//
// Embedment and edge distances are not here: they come from the approval of the anchor that is bought (A304.3.1).

ruleset existing-building "Existing-building code appendix, chapter A3, 2021"

  note "Bracing and anchoring of existing houses. The local building official and licensed professionals always win."

  // Scope

  source "A301.2" from-memory
    limit   storeys     at-most 3   otherwise stop
    limit   dwellings   at-most 4   otherwise stop
    // From the top of the concrete to the underside of the joists.
    limit   cripple-overall at-most 4'-0" otherwise stop
    limit   cripple-overall at-most 14" for storeys 3 otherwise stop
    limit   pole-building   not-allowed otherwise stop
    limit   slab-on-grade   not-allowed otherwise stop

  source "A301.3" from-memory
    // For what lies outside the scope: an engineer, for this share of the base shear of a new building.
    limit engineered-base-shear at-least 75 %

  source "A303.1" published
    limit perimeter-concrete required otherwise stop note "continuous, of concrete or reinforced masonry"
    limit foundation-gap at-most 10'-0" for storeys 1 otherwise engineer
      + note "below an extension wall; porches and stores without fuel-burning appliances are exempt"

  source "A304.2.2" published
    limit   unreinforced-masonry    not-allowed otherwise stop
    limit   partial-foundation      not-allowed otherwise engineer

  source "A304.2" recalled
    limit new-concrete-strength at-least 2500 psi

  // Anchors along a board. A board of 12 ft or more goes by spacing, a shorter one by count.

  source "Table A304.3.1" from-memory
    limit   anchor-spacing  at-most 6'-0"   for storeys 1, bolt at-least 1/2", piece at-least 12'-0"
    limit   anchor-spacing  at-most 4'-0"   for storeys 2, bolt at-least 1/2" under 5/8", piece at-least 12'-0"
    limit   anchor-spacing  at-most 6'-0"   for storeys 2, bolt at-least 5/8", piece at-least 12'-0"
    limit   anchor-spacing  at-most 4'-0"   for storeys 3, bolt at-least 5/8", piece at-least 12'-0"

  source "A304.3.2" from-memory
    limit   end-distance    at-least 9" at-most 12"
    limit   bay-centre      required otherwise note
    // As near as the obstruction lets it, still 9 in from the end, and as many anchors as without it.
    limit end-window-past-obstruction allowed

  source "A304.3.2, exception" recalled
    limit anchor-apart at-least 12"

  source "Table A304.3.2" recalled
    limit   piece-count at-least 3  for storeys 1, piece at-least 6'-0" under 12'-0"
    limit   piece-count at-least 4  for storeys 2, bolt at-least 1/2" under 5/8", piece at-least 6'-0" under 12'-0"
    limit   piece-count at-least 3  for storeys 2, bolt at-least 5/8", piece at-least 6'-0" under 12'-0"
    limit   piece-count at-least 4  for storeys 3, piece at-least 6'-0" under 12'-0"
    limit   piece-count at-least 2  for piece at-least 30" under 6'-0"
    limit   piece-count at-least 1  for piece under 30"

  // The anchors themselves

  source "A304.3.1" published
    limit   side-plate-capacity     at-least 900 lb
    limit   expansion-cracks-face   not-allowed
    limit snug-tight required
      + note "after the adhesive has cured, or once the wedge has taken hold"

  source "A304.3.1" from-memory
    limit   side-plate-as-bolt  is 1/2"
    limit   plate-washer        required note "on every anchor of the sill"
    limit   washer-side         at-least 3"
    limit   washer-thick        at-least 0.229"
    limit   washer-slot-over    at-most 3/16" note "wider than the bolt"
    limit   washer-slot-long    at-most 1-3/4"
    limit   cut-washer          required note "between the nut and a slotted plate"

  source "A304.5" from-memory
    limit   special-inspection      not-required    note "of adhesive anchors set by these tables"
    limit   inspection-before-cover required        note "anchors and nails, by the official"

  // Bracing of each line

  source "Table A304.3.1" from-memory
    // Heavy: cement plaster walls together with a clay or concrete tile roof of more than 6 psf.
    limit   bracing-share   at-least 40 % for storeys 1
    limit   bracing-share   at-least 50 % for storeys 1, heavy
    limit   bracing-share   at-least 50 % for storeys 2
    limit   bracing-share   at-least 70 % for storeys 2, heavy
    limit   bracing-share   at-least 80 % for storeys 3
    limit   bracing-share   at-least 100 % for storeys 3, heavy
    limit   bracing-ends    required

  source "A304.4.2" from-memory
    limit   panel-length        at-least 48"
    limit   panel-per-height    at-least 2
    limit panels-alike required otherwise note
      + note "nearly equal in length and spacing, the outer ones as near the corners as can be"
    limit panel-past-obstruction allowed
      + note "as near to it as can be, and as much panel in all as without it"

  source "A304.4.1.1" from-memory
    limit panel-thick at-least 15/32"

  source "A304.4" from-memory
    limit   panel-edge-nails    at-most 4" for nail 8d
    limit   panel-field-nails   at-most 12" for nail 8d
    limit   panel-stud-nails    at-least 2
    limit   nail-edge           at-least 1/2"
    limit   nail-penetration    at-least 1-1/2"
    limit replacement-nail at-most 2"
      + note "from one that broke the face of the panel, which does not count"
    limit   panel-gap           at-least 1/8"
    limit   panel-joint-blocked required note "a joint along the wall, on flat blocks of nominal 2x4"

  source "A304.4" recalled
    limit added-stud-nails at-most 8" for nail 16d

  source "A304.4.3" published
    limit   vent-hole           at-least 2" at-most 3"
    limit   vent-hole-count     at-least 1 for stud-height under 18"
    limit   vent-hole-count     at-least 2 for stud-height at-least 18"
    limit   vent-hole-clear     at-least 1"
    limit   vent-hole-edge      at-least 1"
    limit   vent-hole-at-bolt   required note "on the line of the bolt, in a stud space that has one"
    limit   vent-hole-at-block  required note "above and below an old block, or a flat nominal 2x4 in its place"

  source "A304.4.4" recalled
    limit   vent-area-kept  required    note "old vents of the crawl space are not made smaller"
    limit   panel-at-vent   required    note "longer by the width of an opening that stays in it"

  // From the floor into the sill

  source "A304.1.3" published
    limit joist-restraint required
      + note "a rim joist of nominal 2 in, or full-depth blocks of it, where joists do not run along the wall"
    limit   blocked-bays        at-least 50 % for storeys at-most 2 note "every other bay"
    limit   blocked-bays        at-least 100 % for storeys 3
    limit   blocked-over-panel  at-least 100 % for storeys at-least 2
    limit   rim-nails           at-most 6" for nail 8d, storeys at-least 2
    limit   block-nails         at-least 3 for nail 8d, storeys at-least 2
    limit   bottom-edge-nails   required for storeys at-least 2 note "to be looked at"
    limit   bottom-edge-nails   not-required for storeys 1
    limit   top-edge-nails      not-required
    limit   angle-for-nails     required note "where the nails of the bottom edge are missing"

  source "A304.1.3" from-memory
    limit common-nails required
`],
  ['los-angeles', `// Los Angeles: municipal code, division 92, and the standard plan that goes with it (1996, amended 2008 and 2018).
// Numbers only, none of the wording. Where this file is silent nothing is checked, and the findings say so.
//
// published: the text was read. from-memory: not read again, sure. recalled: not read again, less sure, or found only in a
// text about it; it prints as "recalled; confirm in your adopted copy".
//
// The side of its plate washers is not here: texts of different years give different ones. Follow the current plan.

ruleset los-angeles "Los Angeles municipal code, division 92, with standard plan 1, as amended 2018"

  note "The local building official and licensed professionals always win."

  // Scope

  source "standard plan, general notes" published
    limit   storeys         at-most 3   otherwise stop
    limit   dwellings       at-most 4   otherwise stop
    limit   cripple-overall at-most 48" for storeys at-most 2 otherwise stop
    // The plan measures the stud here, not the whole height.
    limit   cripple-stud        at-most 14" for storeys 3 otherwise stop
    limit   slope               at-most 33.3333 % otherwise stop note "3 across to 1 up"
    limit   perimeter-concrete  required otherwise stop note "footing and stem wall"
    limit   one-level-floors    required otherwise stop note "all floors of a storey"
    limit   sheathed-already    not-allowed otherwise engineer note "panels or diagonal boards on the cripple wall"

  source "91.9203.1" published
    limit foundation-gap at-most 10'-0" for storeys 1 otherwise engineer
      + note "below an extension wall; porches and stores without fuel-burning appliances are exempt"

  // Anchors along a board

  source "Table 92-A" recalled
    limit   anchor-spacing  at-most 6'-0"   for storeys 1, bolt at-least 1/2"
    limit   anchor-spacing  at-most 4'-0"   for storeys 2, bolt at-least 1/2" under 5/8"
    limit   anchor-spacing  at-most 6'-0"   for storeys 2, bolt at-least 5/8"
    limit   anchor-spacing  at-most 4'-0"   for storeys 3, bolt at-least 5/8"

  source "division 92" recalled
    limit plate-washer required note "on every anchor of the sill; its size is in the current plan"

  // Bracing of each line

  source "Table 92-A" recalled
    limit   bracing-share   at-least 40 % for storeys 1
    limit   bracing-share   at-least 50 % for storeys 1, heavy
    limit   bracing-share   at-least 50 % for storeys 2
    limit   bracing-share   at-least 70 % for storeys 2, heavy
    limit   bracing-share   at-least 80 % for storeys 3
    limit   bracing-share   at-least 100 % for storeys 3, heavy
    limit   bracing-ends    required

  // From the floor into the sill

  source "91.9204.1.3" published
    limit joist-restraint required
      + note "a rim joist of nominal 2 in, or full-depth blocks of it, where joists do not run along the wall"
    limit   blocked-bays        at-least 50 % for storeys at-most 2 note "every other bay"
    limit   blocked-bays        at-least 100 % for storeys 3
    limit   blocked-over-panel  at-least 100 % for storeys at-least 2
    limit   top-edge-nails      not-required

  source "91.9204.1.3" recalled
    limit   rim-nails       at-most 6" for nail 8d, storeys at-least 2
    limit   angle-for-nails required note "where the nails of the bottom edge are missing"

  source "division 92" published
    limit common-nails required

  // Inspection

  source "division 92" published
    limit   inspection-before-concrete  required    note "excavation, bars and bolts"
    limit   inspection-before-cover     required    note "bracing, blocking and anchors"
`],
  ['new-building', `// New buildings: building code, light-frame construction (section 2308), with the wood shear-wall standard that it names.
// Numbers only, none of the wording. Where this file is silent nothing is checked, and the findings say so.
//
// published: the text was read. from-memory: not read again, sure. recalled: not read again, less sure, or found only in a
// text about it; it prints as "recalled; confirm in your adopted copy".
//
// For buildings that are built, not for those that stand; chapters for existing houses send what they do not state back to it.

ruleset new-building "Building code for new buildings, section 2308"

  note "The local building official and licensed professionals always win."

  // Anchors along a board

  source "2308.3" from-memory
    limit   anchor-diameter at-least 1/2"
    limit   anchor-diameter at-least 5/8" for design-category E
    limit   anchor-spacing  at-most 6'-0" for storeys at-most 2, bolt at-least 1/2"
    limit   anchor-spacing  at-most 4'-0" for storeys 3, bolt at-least 1/2"
    limit   embedment       at-least 7" for cast-in
    limit   end-distance    at-least 4" at-most 12"
    limit   piece-count     at-least 2

  // Plate washers and the sill

  source "2305.3.11, 2006" published
    limit   plate-washer        required note "bolts of shear walls, seismic design categories D to F"
    limit   washer-side         at-least 3"
    limit   washer-thick        at-least 0.229"
    limit   washer-slot-over    at-most 3/16" note "wider than the bolt"
    limit   washer-slot-long    at-most 1-3/4"
    limit   three-inch-sill     required for allowable-shear over 350 plf
    limit   two-inch-sill       allowed for doubled-bolts, allowable-shear at-most 600 plf

  source "wood shear-wall standard, 2008 and later" from-memory
    limit washer-to-edge at-most 1/2" for nominal-shear over 400 plf note "to the edge that carries the panel"

  source "wood shear-wall standard" from-memory
    limit plain-washer allowed for hold-downs-take-overturning, height-to-length at-most 2, nominal-shear at-most 980 plf

  // Cripple walls

  source "2308" from-memory
    limit   cripple-is-storey       required for stud-height over 14" note "seismic design categories D and E"
    limit   cripple-bracing-factor  is 1.5 for no-footing-below note "an inner braced line without a footing below it"
`],
  ['new-house', `// New houses: residential code, foundation and wall chapters (R403.1.6, R602.10, R602.11; 2015 and later unless said).
// Numbers only, none of the wording. Where this file is silent nothing is checked, and the findings say so.
//
// published: the text was read. from-memory: not read again, sure. recalled: not read again, less sure, or found only in a
// text about it; it prints as "recalled; confirm in your adopted copy".
//
// For houses that are built, not for those that stand; chapters for existing houses send what they do not state back to it.

ruleset new-house "Residential code for new houses, 2015 and later"

  note "The local building official and licensed professionals always win."

  // Anchors along a board

  source "R403.1.6" published
    limit   anchor-diameter at-least 1/2"
    limit   anchor-spacing  at-most 6'-0" for storeys at-most 2, bolt at-least 1/2"
    limit   embedment       at-least 7" for cast-in
    limit   piece-count     at-least 2
    limit   end-distance    at-least 3-1/2" at-most 12" for bolt at-most 1/2" note "seven diameters"
    limit   end-distance    at-least 4-3/8" at-most 12" for bolt over 1/2" at-most 5/8" note "seven diameters"
    limit   end-distance    at-least 5-1/4" at-most 12" for bolt over 5/8" at-most 3/4" note "seven diameters"

  source "R403.1.6.1" from-memory
    limit anchor-spacing at-most 4'-0" for storeys 3, bolt at-least 1/2" note "seismic design categories D0 to D2"

  source "R403.1.6" from-memory
    limit middle-third required note "anchors in the middle third of the width of the board"

  // At a step of the foundation

  source "R602.11.2" published
    limit   step-first-anchor   is 1'-0" for step-height over 4'-0" note "from the step"
    limit   step-second-anchor  is 3'-0" for step-height over 4'-0" note "from the step"
    limit   top-plate-lap       at-least 4'-0" for step-height over 4'-0" note "over the foundation"
    limit   bolted-as-braced    at-least 8'-0" for step-height over 4'-0" note "a bolted length that counts as braced"

  // Plate washers

  source "R602.11.1" published
    limit   plate-washer    required note "seismic design categories D0 to D2, townhouses in C"
    limit   washer-side     at-least 3"
    limit   washer-thick    at-least 0.229"

  source "R602.11.1" from-memory
    limit   washer-slot-over    at-most 3/16" note "wider than the bolt"
    limit   washer-slot-long    at-most 1-3/4"
    limit   cut-washer          required note "between the nut and a slotted plate"

  // Panels of cripple walls

  source "R602.10, 2009" published
    limit panel-length at-least 48" note "over three stud spaces of 16 in or two of 24 in"

  source "R602.10.9.1, 2009" published
    limit cripple-bracing-factor is 1.5 for no-footing-below note "an inner braced line without a footing below it"

  source "R602.10" recalled
    limit   cripple-bracing-factor  is 1.15
    limit   panel-thick             at-least 3/8" note "on studs 16 in apart"
    limit   panel-edge-nails        at-most 6" for nail 8d
    limit   panel-field-nails       at-most 12" for nail 8d
    limit   panel-joint-blocked     required
`],
  ['portland', `// Portland, Oregon: residential seismic strengthening, prescriptive method; it rests on the 2006 existing-building code.
// Numbers only, none of the wording. Where this file is silent nothing is checked, and the findings say so.
//
// published: the text was read. from-memory: not read again, sure. recalled: not read again, less sure, or found only in a
// text about it; it prints as "recalled; confirm in your adopted copy".

ruleset portland "Portland residential seismic strengthening, on the 2006 existing-building code"

  note "The local building official and licensed professionals always win."

  // Scope

  source "criteria" published
    limit   storeys             at-most 3 otherwise stop
    limit   dwellings           at-most 2 otherwise stop
    limit   cripple-overall     at-most 4'-0" for storeys at-most 2 otherwise stop
    limit   cripple-overall     at-most 14" for storeys 3 otherwise stop
    limit   slope               at-most 33.3333 % otherwise stop note "3 across to 1 up"
    limit   perimeter-concrete  required otherwise stop note "continuous"

  // Anchors along a board

  source "study text on codes of the Pacific Northwest" recalled
    limit   anchor-spacing  at-most 6'-0"   for storeys 1, bolt at-least 1/2"
    limit   end-distance    at-most 12"

  source "prescriptive method" recalled
    limit   anchor-spacing  at-most 4'-0"   for storeys 2, bolt at-least 1/2" under 5/8"
    limit   anchor-spacing  at-most 6'-0"   for storeys 2, bolt at-least 5/8"
    limit   anchor-spacing  at-most 4'-0"   for storeys 3, bolt at-least 5/8"

  // Bracing of each line

  source "study text on codes of the Pacific Northwest" recalled
    limit   bracing-share       at-least 40 % for storeys 1
    limit   bracing-share       at-least 50 % for storeys 2
    limit   bracing-share       at-least 80 % for storeys 3
    limit   panel-thick         at-least 1/2" note "sold as 1/2 in; the true thickness may be 15/32 in"
    limit   panel-plies         at-least 5
    limit   panel-osb           not-allowed
    limit   panel-edge-nails    at-most 4" for nail 8d
    limit   panel-field-nails   at-most 12" for nail 8d
    limit   common-nails        required
`],
  ['shop-limits', `// Limits that the rule sets do not give: what tools need, what to keep away from, how well a tape closes.
// Every number is common practice without a source, and prints so, but for two distances from old bolts. Always in force; a
// rule set that a layout names overrides single ones. Copy the file and change what your shop does otherwise.

ruleset shop-limits "Shop limits, common practice"

  note "Trade habit, no published source unless one is named. The local building official and licensed professionals always win."

  // Tools, and the room to use them

  source "common practice" common-practice
    limit   headroom-bolt   at-least 24"    for drill straight
    limit   headroom-bolt   at-least 12"    for drill right-angle
    limit   side-room       at-least 20"
    limit   drill-clear     at-least 2"
    limit   nut-clear       at-least 2"
    limit   wrench-swing    at-least 10"
    limit   panel-room      at-least 6"     note "a hammer in front of the face that is nailed"
    limit   bay-clear       at-least 6"
    limit   access-wide     at-least 18"
    limit   access-tall     at-least 24"
    limit   crawl-height    at-least 18"

  // Services and hot things. Locate them on both sides of the wall before drilling whatever the distance.

  source "common practice" common-practice
    limit   gas-clear       at-least 6"
    limit   power-clear     at-least 12"
    // In front of an electrical panel, from the floor up: nobody works in it on anything else.
    limit   working-space-wide  at-least 30"
    limit   working-space-deep  at-least 36"
    limit   flue-clear      at-least 6"
    limit   flue-clear      at-least 6"     for single-wall
    limit   flue-clear      at-least 1"     for double-wall
    limit   chimney-clear   at-least 2"

  // Concrete

  source "common practice" common-practice
    limit   cover-behind-hole   at-least 1-1/4"
    limit   opening-edge        at-least 1-1/2"
    limit   expansion-edge      at-least 3"
    limit   corner-holes-apart  at-least 6"
    // Holes of two side plates run away from each other at a right angle: five diameters of 1/2 in at their mouths.
    limit   corner-holes-apart  at-least 2-1/2" for side-plates
    // Two bolts taped nearer than this from two walls are one bolt.
    limit   corner-anchor-same  at-most 2"
    limit   crack-width         at-most 1/8"
    limit   crack-clear         at-least 12"
    limit   wide-cracks         at-most 1 otherwise stop note "along one stretch of foundation"
    limit   cold-joint-clear    at-least 6"
    limit   concrete-strength   at-least 2000 psi otherwise stop
    limit   post-tensioned      not-allowed otherwise stop

  // Floor: what no rule set of the region asks more closely

  source "common practice" common-practice
    limit   angle-spacing   at-most 32"

  // Old bolts and their holes, in the wood and in the concrete: distances along the wall, from middle to middle, in diameters of
  // the thicker of the two

  source "NDS 2018, Table 12.5.1B" from-memory
    // Fasteners in a row along the grain, loaded along it, for the full value.
    limit   old-bolt-apart-per-diameter         at-least 4
  source "ACI 318-19, 17.9.2" from-memory
    // Anchors that are put in later. The same is asked beside a hole that was given up, which no publication measures in diameters.
    limit   old-bolt-in-concrete-per-diameter   at-least 6
  source "common practice" common-practice
    // What crosses an old bolt, the screws and the holes of a side plate: from hole to hole, in diameters of the new one.
    limit   old-hole-clear-per-diameter         at-least 1

  // Sill

  source "common practice" common-practice
    limit   set-back-flat       at-most 1/8"
    limit   set-back-shim       at-most 1/2"
    limit   set-back-plate      at-most 2-1/2"
    limit   set-back-difference at-most 3/8"
    limit   sill-overhang       at-most 1/4"
    limit   sill-thick          at-least 1-1/2"
    // Loaded along the grain; the report of a side plate says what its screws want.
    limit   wood-edge-per-diameter  at-least 1.5
    // Above the outside soil, of wood that is not treated. New houses: IRC R317.1.
    limit   sill-above-grade    at-least 8"
    limit   sill-gap            at-most 1/2"
    limit   split-long          at-most 6"
    limit   split-clear         at-least 6"
    limit   rot-clear           at-least 12"
    // A board that takes one anchor has no end window: seven diameters from either end, where it is long enough.
    limit   lone-anchor-end at-least 3-1/2" for bolt at-most 1/2"
    limit   lone-anchor-end at-least 4-3/8" for bolt over 1/2" at-most 5/8"
    limit   lone-anchor-end at-least 5-1/4" for bolt over 5/8" at-most 3/4"
    limit   bay-centre-off  at-most 3"
    limit   panel-anchors   at-least 2

  // Whether the cook-book path fits the house, where the rule set does not say

  source "common practice" common-practice
    // Of the plan's extent in either direction, as ASCE 7 reckons a re-entrant corner.
    limit   reentrant-share at-most 15 %    otherwise ask
    limit   garage-below    not-allowed     otherwise ask
    limit   hazard-zone     not-allowed     otherwise ask note "liquefaction, landslide and fault maps"

  // Posts and girders

  source "common practice" common-practice
    limit   splice-off-post at-most 1-1/2"
    limit   post-lean       at-most 1/4"    note "in each foot of height"

  // Reckoning

  source "common practice" common-practice
    limit   tolerance       is 1/16"
    limit   closing-error   at-most 1/4" otherwise warning
    limit   closing-blunder at-most 1" otherwise error
    limit   level-error     at-most 1/2"
    limit   span-error      at-most 1"
    // So many more old or new anchors that cannot stand where they are written than from the other end.
    limit   wrong-end-misfits at-least 3
    limit   link-ratio      at-most 2 note "the strongest link of a line against its weakest"
`],
  ['demo-hardware', `// Demo hardware. EVERY value here is invented, and no line is a real product.
// Before a real job, replace each connector by the numbers in the evaluation report of the product that you will buy.

connector flat-plate side-plate
  demo
  note "For a sill that is flush with the concrete."
  report "none: invented values"
  fits set-back 0" to 1/8"
  fits showing at-least 9"
  body 8" wide 10" tall 5/16" thick
  into concrete 2 concrete-screw-anchor size 1/2" x 4-1/2" hole 1/2" hole-depth 4-3/4" apart 4" edge 3"
  into sill 6 lag-screw size 5/16" x 3" edge 3/4"
  holes in concrete (-2", -3-1/2"), (2", -3-1/2")
  holes in sill (-3", 4-1/4"), (-1-3/4", 4-1/4"), (-5/8", 4-1/4"), (5/8", 4-1/4"), (1-3/4", 4-1/4"), (3", 4-1/4")
  capacity along-wall 1000 lb allowable species douglas-fir
  metal galvanised
  tool "rotary hammer, 1/2 in bit; 1/2 in socket"

connector stepped-plate-s stepped-side-plate
  demo
  report "none: invented values"
  fits set-back 1/2" to 1-1/2"
  fits showing at-least 9"
  body 8" wide 9" tall 5/16" thick
  into concrete 2 concrete-screw-anchor size 1/2" x 4-1/2" hole 1/2" hole-depth 4-3/4" apart 4" edge 3"
  into sill 5 lag-screw size 5/16" x 2-1/2" edge 3/4"
  capacity along-wall 950 lb allowable
  metal galvanised

connector stepped-plate-l stepped-side-plate
  demo
  report "none: invented values"
  fits set-back 1-1/2" to 2-1/2"
  fits showing at-least 9"
  body 8" wide 9" tall 5/16" thick
  into concrete 2 concrete-screw-anchor size 1/2" x 4-1/2" hole 1/2" hole-depth 4-3/4" apart 4" edge 3"
  into sill 5 lag-screw size 5/16" x 2-1/2" edge 3/4"
  capacity along-wall 900 lb allowable
  metal galvanised

connector bolt-half through-bolt
  demo
  report "none: invented values"
  fits headroom at-least 24"
  body 3" wide 3" tall 0.229" thick
  into concrete 1 adhesive-rod size 1/2" x 8-1/2" hole 5/8" hole-depth 4" edge 1-3/4"
  capacity along-wall 1040 lb allowable
  metal hot-dip
  tool "3/4 in wrench"

connector washer-3 plate-washer
  demo
  body 3" wide 3" tall 0.229" thick

connector angle-8 framing-angle
  demo
  report "none: invented values"
  body 8" wide 2-1/2" tall
  into joist 6 nail size 8d x 1-1/2"
  into sill 6 nail size 8d x 1-1/2"
  capacity along-wall 420 lb allowable

connector cap-plates post-cap
  demo
  report "none: invented values"
  fits post-width 3-1/2" to 5-1/2"
  fits beam-width 5-1/2" to 5-5/8"
  body 5-1/2" wide 9" tall
  into post 8 wood-screw size 1/4" x 3"
  into beam 8 wood-screw size 1/4" x 3"
  capacity up 800 lb allowable

connector base-angle post-base
  demo
  report "none: invented values"
  fits post-width 3-1/2" to 5-1/2"
  into concrete 1 concrete-screw-anchor size 1/2" x 4"
  into post 6 wood-screw size 1/4" x 3"
  capacity up 700 lb allowable

connector tie-rod hold-down
  demo
  report "none: invented values"
  fits stud at-least 3"
  body 3" wide 14" tall
  into concrete 1 adhesive-rod size 5/8" x 14" hole 3/4" hole-depth 10" edge 2-3/4"
  into stud 14 wood-screw size 1/4" x 2-1/2"
  capacity up 3050 lb allowable

prices demo dated 2026-04-01  // invented, low to high
  demo
  price   flat-plate      \$18.00 to \$24.00 each
  price   stepped-plate-s \$24.00 to \$31.00 each
  price   stepped-plate-l \$26.00 to \$34.00 each
  price   bolt-half       \$4.20 to \$6.50 each
  price   washer-3        \$2.10 to \$3.40 each
  price   angle-8         \$3.80 to \$5.20 each
  price   tie-rod         \$38.00 to \$55.00 each
  price   plywood-15-32   \$34.00 to \$46.00 sheet
  price   nail-8d         \$11.00 to \$16.00 box of 500
  labour  through-bolt        20 to 35 min
  labour  side-plate          35 to 50 min
  labour  stepped-side-plate  35 to 50 min
  labour  framing-angle       6 to 10 min
  labour  panel               60 to 90 min
  rate    labour          \$55 to \$85 per hour
  rate    rotary-hammer   \$60 to \$80 per day
  factor  crawl-low   1.3 for clear-height at-least 24" under 36"
  factor  crawl-belly 1.7 for clear-height under 24"
  allowance   permit      \$300 to \$900
  allowance   contingency 10 % to 15 %
`],
]);
