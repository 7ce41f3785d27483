// Written by scripts/generate-library.ts from language/library: edit the .sill files, not this.
/** Shipped files by name; a layout may use what is in them without `use`. */
export const libraryTexts: ReadonlyMap<string, string> = new Map([
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
    limit   cripple-overall at-most 4'-0"   otherwise stop
    limit   cripple-overall at-most 14"     for storeys 3 otherwise stop

  source "A303.1" published
    limit perimeter-concrete required otherwise stop note "continuous, of concrete or reinforced masonry"
    limit foundation-gap at-most 10'-0" for storeys 1 otherwise engineer
      + note "below an extension wall; porches and stores without fuel-burning appliances are exempt"

  source "A304.2.2" published
    limit unreinforced-masonry not-allowed otherwise stop

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

  source "A304.3.1" from-memory
    limit   side-plate-as-bolt  is 1/2"
    limit   washer-side         at-least 3"
    limit   washer-thick        at-least 0.229"

  source "A304.5" from-memory
    limit special-inspection not-required
      + note "of adhesive anchors set by these tables; the official looks before anything is covered"

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

  source "A304.4.1.1" from-memory
    limit panel-thick at-least 15/32"

  source "A304.4" from-memory
    limit   panel-edge-nails    at-most 4" for nail 8d
    limit   panel-field-nails   at-most 12" for nail 8d
    limit   nail-edge           at-least 1/2"

  source "A304.4.3" published
    limit   vent-hole       at-least 2" at-most 3"
    limit   vent-hole-count at-least 1  for stud-height under 18"
    limit   vent-hole-count at-least 2  for stud-height at-least 18"
    limit   vent-hole-clear at-least 1"

  // From the floor into the sill

  source "A304.1.3" published
    limit   blocked-bays        at-least 50 % for storeys at-most 2 note "every other bay"
    limit   blocked-bays        at-least 100 % for storeys 3
    limit   blocked-over-panel  at-least 100 % for storeys at-least 2
    limit   rim-nails           at-most 6" for nail 8d, storeys at-least 2
    limit   block-nails         at-least 3 for nail 8d, storeys at-least 2
`],
  ['shop-limits', `// Limits that no publication gives: what tools need, what to keep away from, how well a tape closes.
// Every number is common practice without a source, and prints so. Always in force; a rule set that a layout names
// overrides single ones. Copy the file and change what your shop does otherwise.

ruleset shop-limits "Shop limits, common practice"

  note "Trade habit, no published source. The local building official and licensed professionals always win."

  // Tools, and the room to use them

  source "common practice" common-practice
    limit   headroom-bolt   at-least 24"    for drill straight
    limit   headroom-bolt   at-least 12"    for drill right-angle
    limit   side-room       at-least 20"
    limit   drill-clear     at-least 2"
    limit   nut-clear       at-least 2"
    limit   bay-clear       at-least 6"
    limit   access-wide     at-least 18"
    limit   access-tall     at-least 24"
    limit   crawl-height    at-least 18"

  // Services and hot things. Locate them on both sides of the wall before drilling whatever the distance.

  source "common practice" common-practice
    limit   gas-clear       at-least 6"
    limit   power-clear     at-least 12"
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
    limit   crack-width         at-most 1/8"
    limit   crack-clear         at-least 12"
    limit   cold-joint-clear    at-least 6"
    limit   concrete-strength   at-least 2000 psi otherwise stop

  // Floor: what no rule set of the region asks more closely

  source "common practice" common-practice
    limit   angle-spacing   at-most 32"

  // Sill

  source "common practice" common-practice
    limit   set-back-flat       at-most 1/8"
    limit   set-back-shim       at-most 1/2"
    limit   set-back-plate      at-most 2-1/2"
    limit   set-back-difference at-most 3/8"
    limit   sill-overhang       at-most 1/4"
    limit   sill-thick          at-least 1-1/2"
    limit   sill-gap            at-most 1/2"
    limit   split-long          at-most 6"
    limit   split-clear         at-least 6"
    limit   rot-clear           at-least 12"
    // A board that takes one anchor has no end window: seven diameters from either end, where it is long enough.
    limit   lone-anchor-end at-least 3-1/2" for bolt at-most 1/2"
    limit   lone-anchor-end at-least 4-3/8" for bolt over 1/2" at-most 5/8"
    limit   lone-anchor-end at-least 5-1/4" for bolt over 5/8" at-most 3/4"
    limit   bay-centre-off  at-most 3"

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
  holes in sill (-3", 7/8"), (-1-3/4", 7/8"), (-5/8", 7/8"), (5/8", 7/8"), (1-3/4", 7/8"), (3", 7/8")
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
  body 3" wide 3" tall
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
