// Written by `npm run generate` from language/grammar. Changes by hand are lost.

import type { TreeNode } from '../syntax/tree.ts';

export interface Sheet extends TreeNode {
  $type: 'Sheet';
  blocks: Array<Block>;
}

export interface Use extends TreeNode {
  $type: 'Use';
  path?: string;
}

export interface TitleBlock extends TreeNode {
  $type: 'TitleBlock';
  name?: string;
  items: Array<TitleItem>;
}

export interface TitleText extends TreeNode {
  $type: 'TitleText';
  key: TitleTextKey;
  text?: string;
  unknown: boolean;
  tags: Array<Tag>;
}

export interface UnitsFact extends TreeNode {
  $type: 'UnitsFact';
  units?: 'feet-inches' | 'metric';
  tags: Array<Tag>;
}

export interface FaceFact extends TreeNode {
  $type: 'FaceFact';
  face?: 'outside' | 'inside';
  tags: Array<Tag>;
}

export interface RulesFact extends TreeNode {
  $type: 'RulesFact';
  rules: Array<string>;
  tags: Array<Tag>;
}

export interface DateFact extends TreeNode {
  $type: 'DateFact';
  key: 'surveyed' | 'prepared';
  date?: string;
  unknown: boolean;
  by?: string;
  purpose?: string;
  tags: Array<Tag>;
}

export interface InspectionFact extends TreeNode {
  $type: 'InspectionFact';
  required?: 'required' | 'not-required' | 'unknown';
  tags: Array<Tag>;
}

export interface SheetsFact extends TreeNode {
  $type: 'SheetsFact';
  sheets?: 'prescriptive' | 'engineered';
  tags: Array<Tag>;
}

export interface Unknown extends TreeNode {
  $type: 'Unknown';
}

export interface Measured extends TreeNode {
  $type: 'Measured';
  quality?: 'assume' | 'scaled' | 'told';
  amount?: string;
}

export interface Varying extends TreeNode {
  $type: 'Varying';
  first?: Value;
  last?: Value;
}

export interface Size extends TreeNode {
  $type: 'Size';
  nominal?: string;
  sides: Array<Value>;
}

export interface Point extends TreeNode {
  $type: 'Point';
  x?: Value;
  y?: Value;
}

export interface Station extends TreeNode {
  $type: 'Station';
  end?: 'start' | 'end';
  distance?: Value;
  fromRight: boolean;
  side?: 'left' | 'right';
  of?: string;
}

export interface Stretch extends TreeNode {
  $type: 'Stretch';
  from?: Station;
  to?: Station;
}

export interface Place extends TreeNode {
  $type: 'Place';
  at: Array<Station>;
  width?: Value;
}

export interface Bays extends TreeNode {
  $type: 'Bays';
  every?: 'every' | 'odd' | 'even';
  numbers: Array<number>;
  through?: number;
  unknown: boolean;
  none: boolean;
}

export interface Nails extends TreeNode {
  $type: 'Nails';
  count?: number;
  penny?: number;
  nailKind?: NailKind;
  spaced?: Value;
  verified: boolean;
  state?: NailState;
}

export interface NoteTag extends TreeNode {
  $type: 'NoteTag';
  note?: string;
}

export interface PhotoTag extends TreeNode {
  $type: 'PhotoTag';
  photos: Array<number>;
}

export interface ByTag extends TreeNode {
  $type: 'ByTag';
  by?: string;
}

export interface DatedTag extends TreeNode {
  $type: 'DatedTag';
  dated?: string;
}

export interface NoteLine extends TreeNode {
  $type: 'NoteLine';
  note?: string;
  tags: Array<Tag>;
}

export interface PhotoLine extends TreeNode {
  $type: 'PhotoLine';
  photos: Array<number>;
  caption?: string;
  tags: Array<Tag>;
}

export interface AskLine extends TreeNode {
  $type: 'AskLine';
  question?: string;
  tags: Array<Tag>;
}

export interface TagLine extends TreeNode {
  $type: 'TagLine';
  tag: Tag;
}

export interface Acceptance extends TreeNode {
  $type: 'Acceptance';
  rule?: string;
  on?: string;
  where?: Where;
  reason?: string;
  tags: Array<Tag>;
}

export interface AbsentLine extends TreeNode {
  $type: 'AbsentLine';
  what?: string;
  tags: Array<Tag>;
}

export interface House extends TreeNode {
  $type: 'House';
  items: Array<HouseItem>;
}

export interface HouseFact extends TreeNode {
  $type: 'HouseFact';
  key: HouseFactKey;
  value?: Value;
  tags: Array<Tag>;
}

export interface HouseWords extends TreeNode {
  $type: 'HouseWords';
  key: HouseWordsKey;
  words: Array<string>;
  unknown: boolean;
  tags: Array<Tag>;
}

export interface Diagonal extends TreeNode {
  $type: 'Diagonal';
  from?: Point;
  to?: Point;
  taped?: Value;
  tags: Array<Tag>;
}

export interface Seismic extends TreeNode {
  $type: 'Seismic';
  items: Array<SeismicItem>;
}

export interface SeismicFact extends TreeNode {
  $type: 'SeismicFact';
  key: 'SDS' | 'SD1' | 'R' | 'coefficient' | 'importance';
  value?: Value;
  tags: Array<Tag>;
}

export interface SeismicWord extends TreeNode {
  $type: 'SeismicWord';
  key: 'site-class' | 'design-category';
  word?: string;
  unknown: boolean;
  tags: Array<Tag>;
}

export interface Weights extends TreeNode {
  $type: 'Weights';
  items: Array<WeightItem>;
}

export interface WeightFact extends TreeNode {
  $type: 'WeightFact';
  key: WeightKey;
  value?: Value;
  tags: Array<Tag>;
}

export interface ResistanceLine extends TreeNode {
  $type: 'ResistanceLine';
  name?: string;
  label?: string;
  items: Array<ResistanceLineItem>;
}

export interface LineWalls extends TreeNode {
  $type: 'LineWalls';
  walls: Array<string>;
}

export interface LineStoreys extends TreeNode {
  $type: 'LineStoreys';
  storeys?: Value;
}

export interface LineExempt extends TreeNode {
  $type: 'LineExempt';
  from?: 'bracing' | 'anchorage' | 'all';
  reason?: string;
}

export interface Typical extends TreeNode {
  $type: 'Typical';
  items: Array<TypicalItem>;
}

export interface TypicalPanel extends TreeNode {
  $type: 'TypicalPanel';
  attributes: Array<PanelAttribute>;
}

export interface Space extends TreeNode {
  $type: 'Space';
  name?: string;
  items: Array<SpaceItem>;
}

export interface SpaceKind extends TreeNode {
  $type: 'SpaceKind';
  kind: 'crawl' | 'basement' | 'slab' | 'garage' | 'porch';
}

export interface SpaceArea extends TreeNode {
  $type: 'SpaceArea';
  from?: Point;
  to?: Point;
}

export interface ClearHeight extends TreeNode {
  $type: 'ClearHeight';
  height?: Varying;
}

export interface Access extends TreeNode {
  $type: 'Access';
  wide?: Value;
  tall?: Value;
}

export interface Wall extends TreeNode {
  $type: 'Wall';
  name?: string;
  label?: string;
  items: Array<WallItem>;
}

export interface WallLength extends TreeNode {
  $type: 'WallLength';
  length?: Value;
  face?: 'outside' | 'inside';
  adjusted?: Value;
}

export interface WallTurn extends TreeNode {
  $type: 'WallTurn';
  turn?: 'left' | 'right' | 'straight';
  angle?: string;
}

export interface WallFaces extends TreeNode {
  $type: 'WallFaces';
  faces?: 'north' | 'east' | 'south' | 'west';
  angle?: string;
}

export interface WallCorners extends TreeNode {
  $type: 'WallCorners';
  from?: Point;
  to?: Point;
}

export interface WallRole extends TreeNode {
  $type: 'WallRole';
  role: 'interior';
}

export interface WallStoreys extends TreeNode {
  $type: 'WallStoreys';
  storeys?: Value;
  where?: Stretch;
}

export interface Condition extends TreeNode {
  $type: 'Condition';
  condition: ConditionWord;
}

export interface SizeAttribute extends TreeNode {
  $type: 'SizeAttribute';
  size: Size;
}

export interface NailsAttribute extends TreeNode {
  $type: 'NailsAttribute';
  nails: Nails;
}

export interface FoundationStretch extends TreeNode {
  $type: 'FoundationStretch';
  where?: Stretch;
  attributes: Array<FoundationAttribute>;
}

export interface FoundationMaterial extends TreeNode {
  $type: 'FoundationMaterial';
  material: 'concrete' | 'brick' | 'stone' | 'block' | 'wood-posts';
}

export interface FoundationDimension extends TreeNode {
  $type: 'FoundationDimension';
  key: 'thick' | 'showing' | 'top' | 'grade' | 'footing' | 'strength';
  value?: Varying;
}

export interface FoundationSteel extends TreeNode {
  $type: 'FoundationSteel';
  steel: 'reinforced' | 'unreinforced' | 'post-tensioned';
}

export interface SillPiece extends TreeNode {
  $type: 'SillPiece';
  name?: string;
  where?: Stretch;
  attributes: Array<SillAttribute>;
}

export interface SillDimension extends TreeNode {
  $type: 'SillDimension';
  key: 'set-back' | 'headroom';
  value?: Varying;
}

export interface SillJoint extends TreeNode {
  $type: 'SillJoint';
  joint: 'butt' | 'half-lap' | 'scarf' | 'step' | 'corner';
  length?: Value;
}

export interface SillGap extends TreeNode {
  $type: 'SillGap';
  gap?: Value;
}

export interface SillSpecies extends TreeNode {
  $type: 'SillSpecies';
  species?: string;
  unknown: boolean;
}

export interface SillWord extends TreeNode {
  $type: 'SillWord';
  word: 'treated' | 'untreated' | 'double' | 'flush' | 'runs-through';
}

export interface SillBreak extends TreeNode {
  $type: 'SillBreak';
  at?: Station;
  attributes: Array<SillBreakAttribute>;
}

export interface SpotReading extends TreeNode {
  $type: 'SpotReading';
  key: 'set-back' | 'headroom' | 'grade' | 'side-room';
  value?: Value;
  where?: Where;
  tags: Array<Tag>;
}

export interface CrippleStretch extends TreeNode {
  $type: 'CrippleStretch';
  where?: Stretch;
  attributes: Array<CrippleAttribute>;
}

export interface CrippleDimension extends TreeNode {
  $type: 'CrippleDimension';
  key: 'height' | 'stud-height' | 'ledge';
  value?: Varying;
}

export interface CrippleStuds extends TreeNode {
  $type: 'CrippleStuds';
  size?: Size;
  spaced?: Value;
  first?: Value;
}

export interface CripplePlates extends TreeNode {
  $type: 'CripplePlates';
  plates: 'single' | 'double';
}

export interface CrippleSheathing extends TreeNode {
  $type: 'CrippleSheathing';
  sheathing?: string;
  unknown: boolean;
}

export interface CrippleTrimmers extends TreeNode {
  $type: 'CrippleTrimmers';
  trimmers?: 'every-opening' | 'unknown' | 'none';
}

export interface FoundStud extends TreeNode {
  $type: 'FoundStud';
  where?: Place;
  size?: Size;
  tags: Array<Tag>;
}

export interface JoistRun extends TreeNode {
  $type: 'JoistRun';
  where?: Stretch;
  attributes: Array<JoistAttribute>;
}

export interface JoistDirection extends TreeNode {
  $type: 'JoistDirection';
  run: 'into' | 'parallel';
}

export interface JoistDimension extends TreeNode {
  $type: 'JoistDimension';
  key: 'spaced' | 'first' | 'last' | 'span';
  value?: Value;
}

export interface IrregularJoist extends TreeNode {
  $type: 'IrregularJoist';
  where?: Place;
  role?: 'end-joist' | 'doubled' | 'trimmer';
  size?: Size;
  tags: Array<Tag>;
}

export interface Rim extends TreeNode {
  $type: 'Rim';
  where?: Stretch;
  attributes: Array<RimAttribute>;
}

export interface RimSeen extends TreeNode {
  $type: 'RimSeen';
  seen: 'seen' | 'unseen' | 'absent';
}

export interface FoundBlocking extends TreeNode {
  $type: 'FoundBlocking';
  bays?: Bays;
  attributes: Array<FoundBlockingAttribute>;
}

export interface Opening extends TreeNode {
  $type: 'Opening';
  kind: OpeningKind;
  name?: string;
  label?: string;
  where?: Where;
  attributes: Array<ObstructionAttribute>;
}

export interface Service extends TreeNode {
  $type: 'Service';
  kind: ServiceKind;
  name?: string;
  label?: string;
  where?: Where;
  attributes: Array<ObstructionAttribute>;
}

export interface ObstructionDimension extends TreeNode {
  $type: 'ObstructionDimension';
  key: 'off' | 'deep' | 'dia' | 'hub';
  value?: Value;
}

export interface Zone extends TreeNode {
  $type: 'Zone';
  zone?: Varying;
  side?: 'above' | 'below';
  datum?: 'top' | 'joists' | 'soil';
}

export interface ObstructionArea extends TreeNode {
  $type: 'ObstructionArea';
  area?: Value;
}

export interface ObstructionWord extends TreeNode {
  $type: 'ObstructionWord';
  word: ObstructionWordName;
}

export interface Defect extends TreeNode {
  $type: 'Defect';
  kind: 'rot' | 'split' | 'crack' | 'cold-joint' | 'notch' | 'insects' | 'spall';
  name?: string;
  where?: Where;
  attributes: Array<DefectAttribute>;
}

export interface DefectDimension extends TreeNode {
  $type: 'DefectDimension';
  key: 'width' | 'depth';
  value?: Value;
}

export interface FoundAnchor extends TreeNode {
  $type: 'FoundAnchor';
  name?: string;
  size?: Value;
  where?: Place;
  attributes: Array<FoundAnchorAttribute>;
}

export interface FoundAnchorKind extends TreeNode {
  $type: 'FoundAnchorKind';
  kind: 'cast-in' | 'J-bolt' | 'wedge' | 'adhesive' | 'concrete-screw-anchor' | 'strap' | 'plate';
}

export interface FoundAnchorState extends TreeNode {
  $type: 'FoundAnchorState';
  state: 'sound' | 'light-rust' | 'heavy-rust' | 'bent' | 'loose' | 'broken' | 'split-out';
}

export interface FoundAnchorLoss extends TreeNode {
  $type: 'FoundAnchorLoss';
  over: boolean;
  loss?: Value;
}

export interface FoundAnchorWasher extends TreeNode {
  $type: 'FoundAnchorWasher';
  washer?: 'none' | 'cut' | 'round' | 'square' | 'unknown';
}

export interface FoundAnchorNut extends TreeNode {
  $type: 'FoundAnchorNut';
  nut?: 'none' | 'tight' | 'loose' | 'unknown';
}

export interface FoundAnchorDimension extends TreeNode {
  $type: 'FoundAnchorDimension';
  key: 'embed' | 'offset' | 'projects';
  value?: Value;
}

export interface FoundAnchorCredit extends TreeNode {
  $type: 'FoundAnchorCredit';
  credit?: 'none' | 'half' | 'full';
}

export interface Work extends TreeNode {
  $type: 'Work';
  on?: string;
  items: Array<WorkItem>;
}

export interface NewWorkDimension extends TreeNode {
  $type: 'NewWorkDimension';
  key: 'embed' | 'offset' | 'shim';
  value?: Value;
}

export interface NewWorkWord extends TreeNode {
  $type: 'NewWorkWord';
  word: 'proposed' | 'right-angle-drill' | 'both-sides';
}

export interface WithHardware extends TreeNode {
  $type: 'WithHardware';
  hardware?: string;
}

export interface NewAnchor extends TreeNode {
  $type: 'NewAnchor';
  name?: string;
  connector?: string;
  at?: Station;
  attributes: Array<NewWorkAttribute>;
}

export interface Angles extends TreeNode {
  $type: 'Angles';
  name?: string;
  connector?: string;
  where?: Stretch;
  bays?: Bays;
  at: Array<Station>;
  spaced?: Value;
  attributes: Array<NewWorkAttribute>;
}

export interface NewBlocking extends TreeNode {
  $type: 'NewBlocking';
  bays?: Bays;
  attributes: Array<NewBlockingAttribute>;
}

export interface NewStud extends TreeNode {
  $type: 'NewStud';
  at: Array<Station>;
  size?: Size;
  attributes: Array<NewWorkAttribute>;
}

export interface Panel extends TreeNode {
  $type: 'Panel';
  name?: string;
  where?: Stretch;
  attributes: Array<PanelAttribute>;
}

export interface PanelBoard extends TreeNode {
  $type: 'PanelBoard';
  board: 'plywood' | 'OSB';
  thick?: Value;
}

export interface PanelNails extends TreeNode {
  $type: 'PanelNails';
  penny?: number;
  nailKind?: NailKind;
  edge?: Value;
  field?: Value;
}

export interface PanelNailers extends TreeNode {
  $type: 'PanelNailers';
  none: boolean;
  size?: Size;
  nails?: Nails;
  clear: boolean;
}

export interface PanelVentHoles extends TreeNode {
  $type: 'PanelVentHoles';
  diameter?: Value;
  holes?: 'top-and-bottom' | 'one';
  none: boolean;
}

export interface PanelFlatBlock extends TreeNode {
  $type: 'PanelFlatBlock';
  size?: Size;
}

export interface PanelHeight extends TreeNode {
  $type: 'PanelHeight';
  height?: Value;
}

export interface PanelWord extends TreeNode {
  $type: 'PanelWord';
  word: 'proposed';
}

export interface HoldDown extends TreeNode {
  $type: 'HoldDown';
  kind: 'hold-down' | 'strap';
  name?: string;
  connector?: string;
  at?: Station;
  attributes: Array<HoldDownAttribute>;
}

export interface HoldDownMember extends TreeNode {
  $type: 'HoldDownMember';
  member?: 'single-stud' | 'double-stud' | 'post';
}

export interface PostHardware extends TreeNode {
  $type: 'PostHardware';
  role: 'cap' | 'base';
  name?: string;
  connector?: string;
  on?: string;
  attributes: Array<NewWorkAttribute>;
}

export interface Replacement extends TreeNode {
  $type: 'Replacement';
  verb: 'replace' | 'sister';
  what?: 'sill' | 'post' | 'joist' | 'stud';
  name?: string;
  where?: Where;
  attributes: Array<SillAttribute>;
}

export interface FoundThingWork extends TreeNode {
  $type: 'FoundThingWork';
  verb: 'remove' | 'grout' | 'relocate' | 'repair' | 'washer' | 'shore' | 'pad';
  on?: string;
  connector?: string;
  attributes: Array<NewWorkAttribute>;
}

export interface NoWork extends TreeNode {
  $type: 'NoWork';
  reason?: string;
  tags: Array<Tag>;
}

export interface Girder extends TreeNode {
  $type: 'Girder';
  name?: string;
  label?: string;
  items: Array<GirderItem>;
}

export interface GirderSize extends TreeNode {
  $type: 'GirderSize';
  size: Size;
}

export interface GirderEnds extends TreeNode {
  $type: 'GirderEnds';
  from?: Point;
  to?: Point;
}

export interface GirderUnderside extends TreeNode {
  $type: 'GirderUnderside';
  underside?: Value;
}

export interface GirderSpans extends TreeNode {
  $type: 'GirderSpans';
  spans: Array<Value>;
  tags: Array<Tag>;
}

export interface Post extends TreeNode {
  $type: 'Post';
  name?: string;
  size?: Size;
  at?: Station;
  attributes: Array<PostAttribute>;
}

export interface PostDimension extends TreeNode {
  $type: 'PostDimension';
  key: 'height' | 'leans' | 'out-of-plumb';
  value?: Value;
  per?: Value;
}

export interface PostTie extends TreeNode {
  $type: 'PostTie';
  key: 'cap' | 'base' | 'pier' | 'footing';
  words: Array<PostWord>;
}

export interface PostGap extends TreeNode {
  $type: 'PostGap';
  gap?: Value;
}

export interface Splice extends TreeNode {
  $type: 'Splice';
  at?: Station;
  words: Array<PostWord>;
  tags: Array<Tag>;
}

export interface EndRest extends TreeNode {
  $type: 'EndRest';
  end?: 'start' | 'end';
  rest?: 'pocket' | 'doubled-studs' | 'post' | 'sill' | 'unknown';
  tags: Array<Tag>;
}

export interface DayRecord extends TreeNode {
  $type: 'DayRecord';
  date?: string;
  by?: string;
  items: Array<DayRecordItem>;
}

export interface Installed extends TreeNode {
  $type: 'Installed';
  marks: Array<string>;
  at?: Station;
  asPlanned: boolean;
  attributes: Array<InstalledAttribute>;
}

export interface InstalledDimension extends TreeNode {
  $type: 'InstalledDimension';
  key: 'embed' | 'offset' | 'tightened' | 'torque';
  value?: Value;
}

export interface InstalledUsing extends TreeNode {
  $type: 'InstalledUsing';
  connector?: string;
}

export interface InstalledLot extends TreeNode {
  $type: 'InstalledLot';
  lot?: string;
  expires?: string;
}

export interface InstalledReason extends TreeNode {
  $type: 'InstalledReason';
  reason?: string;
}

export interface Omitted extends TreeNode {
  $type: 'Omitted';
  marks: Array<string>;
  reason?: string;
  tags: Array<Tag>;
}

export interface Tested extends TreeNode {
  $type: 'Tested';
  marks: Array<string>;
  how?: 'pull' | 'torque';
  value?: Value;
  result?: 'passed' | 'failed';
  attributes: Array<TestedAttribute>;
}

export interface TestedFailure extends TreeNode {
  $type: 'TestedFailure';
  failure: 'slipped' | 'spun' | 'cracked';
}

export interface TestedWitness extends TreeNode {
  $type: 'TestedWitness';
  witness?: string;
}

export interface Inspected extends TreeNode {
  $type: 'Inspected';
  what?: string;
  result?: 'passed' | 'failed' | 'corrections';
  tags: Array<Tag>;
}

export interface Discovered extends TreeNode {
  $type: 'Discovered';
  text?: string;
  on?: string;
  where?: Place;
  tags: Array<Tag>;
}

export interface DeadHole extends TreeNode {
  $type: 'DeadHole';
  on?: string;
  at?: Station;
  state?: 'open' | 'grouted';
  tags: Array<Tag>;
}

export interface Issue extends TreeNode {
  $type: 'Issue';
  number?: number;
  date?: string;
  purpose?: string;
  items: Array<IssueItem>;
}

export interface Fingerprint extends TreeNode {
  $type: 'Fingerprint';
  fingerprint?: string;
}

export interface Changed extends TreeNode {
  $type: 'Changed';
  marks: Array<string>;
  reason?: string;
  tags: Array<Tag>;
}

export interface Connector extends TreeNode {
  $type: 'Connector';
  name?: string;
  kind?: ConnectorKind;
  items: Array<ConnectorItem>;
}

export interface DemoLine extends TreeNode {
  $type: 'DemoLine';
  demo: boolean;
}

export interface ReportLine extends TreeNode {
  $type: 'ReportLine';
  report?: string;
  tags: Array<Tag>;
}

export interface Fits extends TreeNode {
  $type: 'Fits';
  subject?: 'set-back' | 'stem' | 'showing' | 'headroom' | 'side-room' | 'post-width' | 'beam-width' | 'stud';
  first?: Value;
  last?: Value;
  least?: Value;
  most?: Value;
  tags: Array<Tag>;
}

export interface Body extends TreeNode {
  $type: 'Body';
  wide?: Value;
  tall?: Value;
  thick?: Value;
  tags: Array<Tag>;
}

export interface Drop extends TreeNode {
  $type: 'Drop';
  drop?: Value;
  tags: Array<Tag>;
}

export interface Fastener extends TreeNode {
  $type: 'Fastener';
  member?: Member;
  count?: number;
  kind?: string;
  diameter?: string;
  long?: string;
  attributes: Array<FastenerAttribute>;
}

export interface FastenerDimension extends TreeNode {
  $type: 'FastenerDimension';
  key: 'hole' | 'hole-depth' | 'embed' | 'apart' | 'edge';
  value?: Value;
}

export interface FastenerFilled extends TreeNode {
  $type: 'FastenerFilled';
  filled: boolean;
}

export interface FastenerMetal extends TreeNode {
  $type: 'FastenerMetal';
  metal?: string;
}

export interface Holes extends TreeNode {
  $type: 'Holes';
  member?: Member;
  points: Array<Point>;
  tags: Array<Tag>;
}

export interface Capacity extends TreeNode {
  $type: 'Capacity';
  direction?: 'along-wall' | 'across-wall' | 'up';
  value?: Value;
  attributes: Array<CapacityAttribute>;
}

export interface CapacityBasis extends TreeNode {
  $type: 'CapacityBasis';
  basis: 'allowable' | 'strength';
}

export interface CapacitySpecies extends TreeNode {
  $type: 'CapacitySpecies';
  species?: string;
}

export interface CapacitySource extends TreeNode {
  $type: 'CapacitySource';
  source?: string;
}

export interface MetalLine extends TreeNode {
  $type: 'MetalLine';
  metal?: string;
  tags: Array<Tag>;
}

export interface ToolLine extends TreeNode {
  $type: 'ToolLine';
  tool?: string;
  tags: Array<Tag>;
}

export interface Prices extends TreeNode {
  $type: 'Prices';
  name?: string;
  dated?: string;
  items: Array<PriceItem>;
}

export interface Price extends TreeNode {
  $type: 'Price';
  of?: string;
  low?: string;
  high?: string;
  unit?: 'each' | 'sheet' | 'foot' | 'day' | 'lump' | 'box';
  count?: number;
  tags: Array<Tag>;
}

export interface Labour extends TreeNode {
  $type: 'Labour';
  of?: string;
  low?: string;
  high?: string;
  tags: Array<Tag>;
}

export interface Rate extends TreeNode {
  $type: 'Rate';
  of?: string;
  low?: string;
  high?: string;
  per?: 'hour' | 'day';
  tags: Array<Tag>;
}

export interface Factor extends TreeNode {
  $type: 'Factor';
  of?: string;
  factor?: string;
  condition?: LimitCondition;
  tags: Array<Tag>;
}

export interface Allowance extends TreeNode {
  $type: 'Allowance';
  of?: string;
  low?: string;
  high?: string;
  tags: Array<Tag>;
}

export interface RuleSet extends TreeNode {
  $type: 'RuleSet';
  name?: string;
  title?: string;
  items: Array<RuleSetItem>;
}

export interface LimitSource extends TreeNode {
  $type: 'LimitSource';
  text?: string;
  trust?: Trust;
  tags: Array<Tag>;
}

export interface Limit extends TreeNode {
  $type: 'Limit';
  subject?: string;
  bounds: Array<Bound>;
  verdict?: 'required' | 'not-required' | 'allowed' | 'not-allowed';
  conditions: Array<LimitCondition>;
  otherwise?: Grade;
  source?: string;
  trust?: Trust;
  tags: Array<Tag>;
}

export interface Bound extends TreeNode {
  $type: 'Bound';
  comparison: Comparison;
  value?: string;
}

export interface LimitCondition extends TreeNode {
  $type: 'LimitCondition';
  key?: string;
  value?: string;
  bounds: Array<Bound>;
}

export type Block = Use | TitleBlock | House | Seismic | Weights | ResistanceLine | Typical | Space | Wall | Girder | Work | DayRecord | Issue | Connector | Prices | RuleSet;

export type TitleItem = TitleText | UnitsFact | FaceFact | RulesFact | DateFact | InspectionFact | SheetsFact | Acceptance | CommonLine;

export type TitleTextKey = 'address' | 'owner' | 'jurisdiction' | 'permit-number' | 'code' | 'licence' | 'scale';

export type Value = Unknown | Measured;

export type Where = Stretch | Place;

export type NailKind = 'common' | 'box' | 'sinker' | 'cooler' | 'ring-shank';

export type NailState = 'unknown' | 'unseen';

export type Tag = NoteTag | PhotoTag | ByTag | DatedTag;

export type CommonLine = NoteLine | PhotoLine | AskLine;

export type HouseItem = HouseFact | HouseWords | Diagonal | AbsentLine | CommonLine;

export type HouseFactKey = 'storeys' | 'year' | 'dwellings' | 'area' | 'slope' | 'floor-underside';

export type HouseWordsKey = 'roof' | 'siding' | 'veneer' | 'floors' | 'foundation' | 'soil' | 'inside-finish';

export type SeismicItem = SeismicFact | SeismicWord | CommonLine;

export type WeightItem = WeightFact | CommonLine;

export type WeightKey = 'roof' | 'ceiling' | 'floor' | 'upper-floor' | 'partitions' | 'exterior-walls' | 'whole-house';

export type ResistanceLineItem = LineWalls | LineStoreys | LineExempt | CommonLine | TagLine;

export type TypicalItem = FoundationStretch | SillPiece | CrippleStretch | JoistRun | Rim | FoundBlocking | TypicalPanel | CommonLine;

export type SpaceItem = SpaceKind | SpaceArea | ClearHeight | Access | CommonLine | TagLine;

export type WallItem = WallFact | FoundationStretch | SillPiece | SillBreak | SpotReading | CrippleStretch | FoundStud | JoistRun | IrregularJoist | Rim | FoundBlocking | Opening | Service | Defect | FoundAnchor | AbsentLine | Acceptance | CommonLine | TagLine;

export type WallFact = WallLength | WallTurn | WallFaces | WallCorners | WallRole | WallStoreys;

export type ConditionWord = 'sound' | 'cracked' | 'crumbling' | 'soft' | 'damp' | 'leaning' | 'undermined' | 'rotten' | 'split';

export type FoundationAttribute = FoundationMaterial | FoundationDimension | FoundationSteel | Condition | Tag;

export type SillAttribute = SizeAttribute | SillDimension | SillJoint | SillGap | SillSpecies | SillWord | Condition | Tag;

export type SillBreakAttribute = SillJoint | SillGap | Tag;

export type CrippleAttribute = CrippleDimension | CrippleStuds | CripplePlates | CrippleSheathing | CrippleTrimmers | Condition | Tag;

export type JoistAttribute = JoistDirection | JoistDimension | SizeAttribute | Tag;

export type RimAttribute = RimSeen | SizeAttribute | NailsAttribute | Tag;

export type FoundBlockingAttribute = SizeAttribute | NailsAttribute | Tag;

export type OpeningKind = 'vent' | 'window' | 'door' | 'hatch' | 'chimney';

export type ServiceKind = 'pipe' | 'gas-pipe' | 'stack' | 'conduit' | 'duct' | 'flue' | 'electrical-panel' | 'meter' | 'water-heater' | 'furnace' | 'stair' | 'obstruction';

export type ObstructionAttribute = ObstructionDimension | Zone | ObstructionArea | ObstructionWord | Tag;

export type ObstructionWordName = 'movable' | 'fixed' | 'riser' | 'reaches-sill' | 'both-sides' | 'single-wall' | 'double-wall' | 'cast-iron' | 'copper' | 'live';

export type DefectAttribute = DefectDimension | Tag;

export type FoundAnchorAttribute = FoundAnchorKind | FoundAnchorState | FoundAnchorLoss | FoundAnchorWasher | FoundAnchorNut | FoundAnchorDimension | FoundAnchorCredit | Tag;

export type WorkItem = NewAnchor | Angles | NewBlocking | NewStud | Panel | HoldDown | PostHardware | Replacement | FoundThingWork | NoWork | Acceptance | CommonLine;

export type NewWorkAttribute = NewWorkDimension | NewWorkWord | WithHardware | Tag;

export type NewBlockingAttribute = SizeAttribute | NailsAttribute | NewWorkAttribute;

export type PanelAttribute = PanelBoard | PanelNails | PanelNailers | PanelVentHoles | PanelFlatBlock | PanelHeight | PanelWord | Tag;

export type HoldDownAttribute = HoldDownMember | NewWorkAttribute;

export type GirderItem = GirderSize | GirderEnds | GirderUnderside | GirderSpans | Post | Splice | EndRest | Acceptance | CommonLine | TagLine;

export type PostAttribute = PostDimension | PostTie | PostGap | Tag;

export type PostWord = 'none' | 'unknown' | 'toenails' | 'shims' | 'loose' | 'sound' | 'pocket' | 'pad' | 'side-plate';

export type DayRecordItem = Installed | Omitted | Tested | Inspected | Discovered | DeadHole | CommonLine;

export type InstalledAttribute = InstalledDimension | InstalledUsing | InstalledLot | InstalledReason | Tag;

export type TestedAttribute = TestedFailure | TestedWitness | Tag;

export type IssueItem = Fingerprint | Changed | CommonLine | TagLine;

export type ConnectorKind = 'side-plate' | 'stepped-side-plate' | 'through-bolt' | 'framing-angle' | 'post-cap' | 'post-base' | 'hold-down' | 'plate-washer' | 'strap' | 'shim';

export type ConnectorItem = DemoLine | ReportLine | Fits | Body | Drop | Fastener | Holes | Capacity | MetalLine | ToolLine | CommonLine;

export type Member = 'concrete' | 'sill' | 'joist' | 'blocking' | 'post' | 'beam' | 'stud' | 'plate';

export type FastenerAttribute = FastenerDimension | FastenerFilled | FastenerMetal | Tag;

export type CapacityAttribute = CapacityBasis | CapacitySpecies | CapacitySource | Tag;

export type PriceItem = DemoLine | Price | Labour | Rate | Factor | Allowance | CommonLine;

export type RuleSetItem = LimitSource | Limit | CommonLine;

export type Trust = 'published' | 'from-memory' | 'recalled' | 'common-practice';

export type Comparison = 'at-least' | 'at-most' | 'over' | 'under' | 'is';

export type Grade = 'stop' | 'engineer' | 'ask' | 'error' | 'warning' | 'note';
