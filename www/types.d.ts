// The shapes that cross from the core to the page, written by hand beside the core's own types.
// Lengths are integer micrometres, masses grams, positions in the finished standing pose:
// x left to right, y front to back, z up.

export type Direction = "-x" | "+x" | "-y" | "+y" | "-z" | "+z";
export type Point = [number, number, number];
/** `[x0, y0, z0, x1, y1, z1]`: left front lower corner, right rear upper corner. */
export type Box = [number, number, number, number, number, number];
export type Notation = "inch-16" | "inch-32" | "inch-64" | "mm-half" | "mm-tenth";
export type Severity = "stop" | "fix" | "caution" | "note";

export interface Finding {
  code: string;
  severity: Severity;
  /** The field, part or step it concerns: `space.height`, `part left-side`, `step 4`. */
  where: string;
  message: string;
  hint: string;
  numbers?: Record<string, string>;
  source?: string;
  /** The stage and the step it concerns, where a check says so. */
  stage?: "measure" | "size" | "cut" | "bench" | "install";
  step?: number;
  /** Why the maker accepts it. */
  accepted?: string;
}

export type Theme =
  | "screws" | "panels" | "pull-out" | "tip-over" | "lifting"
  | "fronts" | "fit" | "install" | "materials" | "tolerance";

/** One check that was run; its numbers are printed already. */
export interface CheckRow {
  rule: string;
  theme: Theme;
  what: string;
  formula: string;
  inputs: { name: string; value: string }[];
  result: string;
  limit?: string;
  /** Absent when nothing limits it. */
  passed?: boolean;
  where: string;
  stage: "measure" | "size" | "cut" | "bench" | "install";
  step?: number;
  source: string;
}

export interface SizeRow {
  id: string;
  label: string;
  value: number;
  text: string;
  why: string;
}

/** One way to fill a wall with bought units and the piece. */
export interface Fill {
  units: number[];
  custom: number;
  /** At the left and at the right end; nought for none. */
  fillers: [number, number];
  text: string;
  why: string;
}

/** What becomes of a part that is cut already. */
export interface MadeRow {
  part: string;
  verdict: "fine" | "trim" | "remake" | "spoiled";
  text: string;
}

export interface Outcome {
  findings: Finding[];
  sizes: SizeRow[];
  checks: CheckRow[];
  /** What the measurements come to; absent when there is nothing. */
  measured?: SizeRow[];
  run?: Fill[];
  made?: MadeRow[];
  plan: Plan | null;
}

export interface Plan {
  format: string;
  title: string;
  unit: Notation;
  workshop: Workshop;
  /** Names of the pieces that are put together apart, and of the whole. */
  bodies?: { id: string; name: string }[];
  parts: Part[];
  joints: Joint[];
  steps: Step[];
  cost: Record<string, number>;
  proof: { optimal: boolean; states: number; bound: Record<string, number> };
  /** How the parts are cut. */
  cutting?: Cutting;
  /** The way into its room, a plan of the same shape. */
  install?: Plan;
  findings: Finding[];
}

/** On a sheet x runs along its length, y along its width, from the left front corner. */
export interface Cutting {
  job: { kerf: number; stock: CutJobStock[]; parts: { id: string; count: number }[] };
  stock: CutStock[];
  searched: number;
  sheets: SheetPlan[];
  unplaced: { part: string; why: string }[];
  score: { sheets: number; scraps: number };
  proved: boolean;
  claim: string;
  steps: SawStep[];
  cautions: string[];
  shopping: ShoppingItem[];
}

export interface CutJobStock {
  id: string;
  material: string;
  length: number;
  width: number;
  count: number | null;
  grain: "length" | "width" | "none";
}

export interface CutStock {
  material_name: string;
  thickness: number;
  mass_g: number;
  on_hand?: number;
  price?: number;
  scrap: boolean;
  assumed: boolean;
}

export interface SheetPlan {
  n: number;
  stock: string;
  size: [number, number];
  parts: { part: string; mark: string; at: [number, number]; size: [number, number]; turned: boolean }[];
  offcuts: { id: string; at: [number, number]; size: [number, number]; keep_for?: string }[];
}

export interface SawStep {
  /** From 1. */
  n: number;
  work: "trim" | "cut" | "spacer" | "shape";
  tool: string;
  text: string;
  setting: number;
  parts?: string[];
  cautions?: string[];
}

export interface ShoppingItem {
  id: string;
  group: string;
  name: string;
  unit: string;
  need: number;
  spare: number;
  on_hand: number;
  buy: number;
  /** In thousandths of any money. */
  cost?: number;
  why?: string;
}

/** How far the search for a layout is. */
export interface CutProgress {
  searched: number;
  of: number;
  more: boolean;
  cutting: Cutting;
}

/** What is there after some saw steps. */
export interface AsCut {
  made: string[];
  spoiled: string[];
  stock: { id: string; material: string; length: number; width: number; count?: number; stock: number; piece: boolean }[];
}

/** What was ticked off at the saw, of the layout found in so many steps. */
export interface Ticks {
  searched: number;
  done: number[];
  spoiled: string[];
}

/** What is known without an order: sizes at once, the plan follows. */
export interface Draft {
  findings: Finding[];
  sizes: SizeRow[];
  parts: Part[];
}

export interface Workshop {
  drill_length: number;
  drill_width: number;
  bit_width: number;
  bit_length: number;
  bench_length: number;
  bench_width: number;
  bench_height: number;
  bearers?: number;
  reach_height: number;
  clamps: number[];
  people: number;
  square_check: string;
  /** Other ways to drive a screw than the drill. */
  tools?: Driver[];
  /** Minutes that the glue may wait or must be pressed. */
  glue?: { open: number; closed: number; clamp: number };
  /** Pieces at hand that may set a distance. */
  offcuts?: Offcut[];
}

export interface Driver {
  name: string;
  length: number;
  width: number;
  bit_width: number;
  bit_length: number;
}

export interface Offcut {
  id: string;
  name: string;
  length: number;
  width: number;
  thickness: number;
}

export interface Part {
  id: string;
  name: string;
  /** The body it belongs to: `main`, or one joined to it whole, such as `box`. */
  group: string;
  material: string;
  material_name: string;
  kind: "panel" | "hardware";
  length: number;
  width: number;
  thickness: number;
  grain: "length" | "width" | "none";
  mass_g: number;
  boxes: Box[];
  making?: { label: string; cut: [number, number]; mirrors?: string };
}

export interface Fastener {
  id: string;
  kind: string;
  gauge: number;
  length: number;
  pilot: number;
  entry: Point;
  direction: Direction;
}

export interface Joint {
  id: string;
  parts: [string, string];
  kind: string;
  glue: boolean;
  fasteners: Fastener[];
}

export type Action =
  | "lay-out" | "place" | "drive" | "turn" | "check" | "dry-fit"
  | "clamp" | "unclamp" | "wait" | "set-aside" | "bring-in" | "hang";

export interface Step {
  /** From 1. */
  n: number;
  stage: "bench" | "install";
  action: Action;
  text: string;
  /** The face of the piece that lies on the bench, a direction of the standing pose. */
  bench_face: Direction;
  body: string;
  parts: string[];
  joins?: string;
  direction?: Direction;
  fasteners: string[];
  joints: string[];
  people: number;
  minutes: number;
  /** Screws of this step that another tool drives than the drill. */
  drivers?: { tool: string; fasteners: string[] }[];
  /** Clamps put on here and left on until an `unclamp`. */
  clamps?: ClampPlace[];
  hold: Hold[];
  spacer?: Spacer;
  checks: Check[];
  /** Lines to draw for its screws. */
  lines?: ScrewLine[];
  why: Reason[];
  /** The best of what else could have been done; no cost when it cannot be done. */
  instead?: { text: string; cost?: Record<string, number> };
}

export interface ClampPlace {
  /** Ids of the two parts it presses together. */
  parts: [string, string];
  opening: number;
  jaws: [Box, Box];
  bar: Box;
}

export interface ScrewLine {
  /** Ids of the panel it is drawn on, and of what lies hidden behind. */
  part: string;
  behind: string;
  side: Direction;
  edge: string;
  distance: number;
  text: string;
  tip?: string;
}

export interface Hold {
  what: string;
  /** When not all of the body lies there. */
  name?: string;
  with: "bench" | "clamp" | "spacer" | "hand" | "helper";
  why: string;
  /** Where the clamp goes, when a clamp holds it. */
  clamp?: ClampPlace;
}

export interface Spacer {
  /** Id of a part that is not in yet, or of an offcut. */
  part: string;
  dimension: number;
  sets: string;
  at: Box;
  out: Direction;
}

export interface Check {
  kind: "diagonals" | "equal-widths" | "flush" | "dry-fit" | "gap" | "level" | "works";
  expected: number[];
  tolerance: number;
  between: [Point, Point][];
  text: string;
}

export interface Reason {
  rule: string;
  text: string;
  numbers: number[];
}

/** What the compiled core gives the page. */
export interface Core {
  default(from: { module_or_path: WebAssembly.Module }): Promise<unknown>;
  Session: new () => Session;
}

/** What the compiled picture gives the page. */
export interface Drawer {
  default(from: { module_or_path: WebAssembly.Module }): Promise<unknown>;
  View: new (gl: WebGL2RenderingContext, planJson: string) => View;
}

export interface Session {
  build(text: string): string;
  /** Whether the last text gave a plan. */
  has_plan(): boolean;
  cut(to: number): string | undefined;
  as_cut(told: string): string | undefined;
  draft(text: string): string;
  export(kind: string): string | undefined;
  model(): Uint8Array | undefined;
  remedy(question: string): string | undefined;
  free(): void;
}

/** What to do about something measured. */
export interface Remedy {
  verdict: "good" | "mend" | "wrong" | "unread";
  text: string[];
  /** Of diagonals: by how much the long sides shift, in micrometres. */
  push?: number;
  findings: Finding[];
}

/** What the page asks of its planner. */
export type Work =
  | { kind: "build"; text: string }
  | { kind: "export"; text: string; file: string; to?: number }
  | { kind: "cut"; text: string; to: number }
  | { kind: "as-cut"; text: string; to: number; told: string }
  | { kind: "model"; text: string }
  | { kind: "remedy"; text: string; question: string };
/** A file's text or bytes; nothing when there is no such file. */
export type Answer = string | Uint8Array<ArrayBuffer> | undefined;
export type Question = { kind: "start"; compiled: WebAssembly.Module } | Work;
export type Asked = Question & { id: number };
export interface Answered {
  id: number;
  got?: Answer;
  failed?: string;
  /** The core has stopped in there: nothing more may be asked of it. */
  stopped?: boolean;
}

/** The drawn plan. `show(n, t)`: step `n` from 1, `t` from 0 (apart) to 1 (in place). */
export interface View {
  load(planJson: string): void;
  /** Physical pixels, and how many of them a CSS pixel has. */
  resize(width: number, height: number, ratio: number): void;
  theme(dark: boolean, reduced: boolean): void;
  show(n: number, t: number): void;
  /** The whole piece, standing, with nothing in motion. */
  finished(): void;
  /** Panels by their edges; what comes next by its edges; pulled apart. */
  look(through: boolean, next: boolean, apart: boolean): void;
  /** Cut open across width (0), depth (1) or height (2) at a share of it from 0 to 1; below 0: whole. */
  section(axis: number, share: number): void;
  /** A {@link Face} as JSON. */
  touch(x: number, y: number): string | undefined;
  /** How far the eye is on its way from the last step, 0 to 1; whether it has a way to go. */
  arrive(way: number): boolean;
  orbit(dx: number, dy: number): void;
  pan(dx: number, dy: number): void;
  zoom(factor: number): void;
  home(): void;
  is_home(): boolean;
  draw(): void;
  labels(): string;
  pick(x: number, y: number): string | undefined;
  project(x: number, y: number, z: number): Float32Array;
  part_pixels_box(id: string): Float32Array;
  free(): void;
}

/** A face of a part that was tapped: the axis it stands across, and where on it, in micrometres. */
export interface Face {
  id: string;
  axis: number;
  at: number;
}

/** A name to stand at a place in the picture, in CSS pixels from its upper left corner. */
export interface Label {
  kind: string;
  text: string;
  x: number;
  y: number;
}

export type StageName = "measure" | "size" | "cut" | "bench" | "install" | "numbers";
export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
export type Path = (string | number)[];

export interface Example {
  file: string;
  title: string;
  /** Whether the host has a plan of it. */
  planned?: boolean;
}

export interface State {
  stage: StageName;
  /** The scenario as typed; null until one is read. */
  scenario: Json;
  /** Grows whenever rows come or go, so that forms are built anew only then. */
  shape: number;
  /** Which example it began from; empty for a file of one's own. */
  example: string;
  examples: Example[];
  outcome: Outcome | null;
  /** Sizes and parts of what is typed now, before it is planned. */
  draft: Draft | null;
  /** How many changes can be taken back, and made again. */
  history: { undo: number; redo: number };
  /** The last plan that worked, and whether the sizes have changed since. */
  plan: Plan | null;
  stale: boolean;
  /** Whether the scenario was changed and its plan is on the way. */
  planning: boolean;
  /** Whether the last change was to what the maker decides about the order. */
  aboutOrder: boolean;
  step: number;
  /** The best layout so far of the plan shown; null when it has nothing to cut. */
  cutting: Cutting | null;
  /** Steps of the search for a better one, whether it is under way, and whether there may be something left to find. */
  search: { searched: number; of: number; running: boolean; more: boolean };
  /** What was ticked off at the saw. */
  ticks: Ticks;
  /** Set while nothing can be shown yet, or when something went wrong. */
  notice: string;
  dark: boolean;
  reduced: boolean;
  /** Whether the site works without network. */
  offline: boolean;
  /** Whether a new version of the site waits to be taken. */
  newer: boolean;
  /** Where the last change was kept. */
  kept: import("./stored.js").Kept;
  /** Whether the maker's own file from before was set aside. */
  aside: boolean;
}

/** What a stage may ask of the page. */
export interface App {
  state(): State;
  edit(path: Path, value: Json | undefined): void;
  reshape(change: (scenario: { [key: string]: Json }) => void): void;
  undo(): void;
  redo(): void;
  loadExample(name: string): Promise<void>;
  openFile(file: File): Promise<void>;
  startAgain(): Promise<void>;
  /** Goes back to the file that was set aside. */
  backToAside(): Promise<void>;
  goStep(n: number, move: boolean): void;
  exportFile(kind: string): Promise<string | undefined>;
  exportModel(): Promise<Uint8Array<ArrayBuffer> | undefined>;
  remedy(question: object): Promise<Remedy | undefined>;
  /** Shows how it lies after the step before, for asking what comes next. */
  showBefore(n: number): void;
  /** Tells a reader without a place on the page. */
  say(text: string): void;
  /** Tells at the head of the page. */
  notice(text: string): void;
  /** Looks on for a better layout, or stops. */
  searchOn(on: boolean): void;
  /** A saw step is done, or is not; a part is spoiled, or is not. */
  tickStep(n: number, done: boolean): void;
  tickSpoiled(part: string, spoiled: boolean): void;
  /** Plans what is left from what is there. */
  planTheRest(): Promise<void>;
  picture: import("./picture.js").Picture;
}

export interface Mounted {
  update(state: State): void;
  leave?(): void;
}

export interface Stage {
  mount(root: HTMLElement, app: App): Mounted;
}

declare global {
  interface Window {
    jointwise: { outcome: Outcome | null; step: number; motion: "running" | "rest"; planner: "waits" | "runs" | "fails" };
  }
}
