/** An invented house that no usual sheet holds: two walls of 84 ft in boards of 16 ft, a step in one of them, a hazard across a cut. */
export const longHouse = `
layout "Long house"
  units       feet-inches
  face        outside
  rules       existing-building

house
  storeys         1
  year            1931
  dwellings       1
  slope           0 %
  floor-underside 1-1/2"

typical
  foundation concrete unreinforced sound thick 6" grade 10" strength assume 2000 psi
  sill size 1-1/2" x 5-1/2" untreated
  joists size 1-1/2" x 7-1/2" spaced 16"

wall A "north" faces north from (0", 60'-0") length 84'-0"
  foundation to 32'-0" showing 20" top 0"
  foundation to end showing 20" top -1'-0"
  sill A1 to 16'-0" set-back 0" headroom 7-1/2" butt
  sill A2 to 32'-0" set-back 0" headroom 7-1/2" step
  sill A3 to 48'-0" set-back 0" headroom 7-1/2" butt
  sill A4 to 64'-0" set-back 0" headroom 7-1/2" butt
  sill A5 to end set-back 0" headroom 7-1/2" corner
  joists into spaced 16" first 0"
  gas-pipe G1 30'-0" to 34'-0"
  vent V1 60'-0" to 61'-4"

wall B "east" length 60'-0"
  foundation to end showing 20" top 0"
  sill B1 to end set-back 0" headroom 7-1/2" corner
  joists parallel

wall C "south" length 84'-0"
  foundation to end showing 20" top 0"
  sill C1 to end set-back 0" headroom 7-1/2" corner
  joists into spaced 16" first 0"

wall D "west" length 60'-0"
  foundation to end showing 20" top 0"
  sill D1 to end set-back 0" headroom 7-1/2" corner
  joists parallel

work on A
${Array.from({ length: 27 }, (_, index) => `  anchor A-${index + 1} flat-plate at ${1 + index * 3}'-6"`).join('\n')}
`;
