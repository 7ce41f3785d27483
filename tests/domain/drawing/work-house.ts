/** One wall with every kind of new work and every state of it, and a girder. Invented. */
export const workHouse = `layout "Everything at once"

connector strap-6 strap
  demo
  body 12" wide 1-1/4" tall
  into plate 10 nail size 16d

house
  floor-underside +4"

issue 1 2026-05-01 for review by "designer" fingerprint "0000-0000"

wall W "long side" faces north length 40'-0"
  foundation thick 8" showing 20" top -1'-0" grade 9"
  sill S1 0" to 20'-0" size 1-5/8" x 5-5/8" set-back 1/2" headroom 11-1/8" butt
  sill S2 20'-0" to 32'-0" size 1-5/8" x 5-5/8" set-back 1/2" headroom 11-1/8" butt
  sill S3 32'-0" to 40'-0" size 1-5/8" x 5-5/8" set-back 1/2" headroom 11-1/8"
  cripple height 16" stud-height 11-1/8" studs size 1-5/8" x 3-5/8" spaced 16" first 0" double plate trimmers every-opening ledge 2"
  joists into size 1-5/8" x 9-1/2" spaced 16" first 0"
  blocking odd bays
  vent V1 8'-0" to 9'-4"
  stack ST 10'-10" to 11'-2"
  water-heater WH 17'-0" to 18'-6"
  crack CR at 26'-0"
  anchor X1 1/2" at 2'-0" heavy-rust
  anchor X2 1/2" at 6'-0" light-rust
  anchor X3 1/2" at 15'-0" sound
wall Z faces east length 10'-0"

work on W
  anchor W-1 bolt-half at 1'-0"
  anchor W-2 bolt-half at 5'-0"
  anchor W-3 stepped-plate-s at 10'-0"
  anchor W-4 stepped-plate-s at 14'-0" proposed
  anchor W-5 bolt-half at 19'-0"
  anchor W-6 bolt-half at 21'-0"
  anchor W-7 stepped-plate-s at 25'-0"
  anchor W-8 bolt-half at 31'-0" proposed
  panel W-P1 0" to 4'-0" plywood 15/32" nails 8d common edge 4" field 12" nailers 2x4 vent-holes 2-1/2" top-and-bottom
  panel W-P2 12'-0" to 16'-0" plywood 15/32" nails 8d common edge 6" field 12" proposed flat-block 2x4
  panel W-P3 20'-0" to 24'-0" plywood 15/32" nails 8d common edge 4" field 12"
  panel W-P4 27'-0" to 31'-0" plywood 15/32" nails 8d common edge 4" field 12"
  hold-down W-H1 tie-rod at 0'-4" on double-stud
  hold-down W-H2 tie-rod at 12'-4" on double-stud proposed
  strap W-T1 strap-6 at 22'-0"
  angles W-A1 angle-8 0" to 16'-0" spaced 16"
  angles W-A2 angle-8 20'-0" to 28'-0" spaced 16" proposed
  blocking bays 2, 4
  blocking bay 6 proposed
  stud at 3'-4" 2x4
  replace stud at 16'-0"
  replace joist at 5'-4"
  sister sill S2 22'-0" to 26'-0" size 1-1/2" x 5-1/2" treated
  replace sill S3 32'-0" to 40'-0" size 1-1/2" x 5-1/2" treated
  remove X1
  grout X3
  washer X2 washer-3
  remove ST
  relocate WH
  repair CR

girder GD size 5-1/2" x 7-1/2" from (10'-0", 0") to (10'-0", 30'-0") underside -2"
  rests at start pocket
  post P1 6x6 at 6'-0" height 4'-0" cap toenails base unknown
  post P2 4x4 at 14'-0" height 4'-0" cap none base none pier loose leans 3/4"
  post P3 6x6 at 20'-0" height unknown cap none base none
  post P4 6x6 at 26'-0" height 3'-0" cap none base none
    splice at 14'-0" side-plate
  rests at end doubled-studs

work on GD
  cap GD-C1 cap-plates on P1 both-sides
  cap GD-C2 cap-plates on P2
  base GD-B1 base-angle on P1
  replace post P3 6x6
  shore P3
  remove P4
  pad P2

record 2026-06-01 by "crew"
  installed W-1, W-P3 as planned
  installed W-2 at 5'-3" because "missed a bar"
  installed W-3 at unknown
  omitted W-7, W-P4 because "no room"
  tested W-5 pull 1000 lb failed slipped
  tested W-6 pull 1000 lb failed slipped
  installed W-6 at 21'-2"
`;
