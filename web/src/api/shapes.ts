// What the server sends, by the names the page uses.

import type { Edit, Tree, Value } from '../house/values';

export interface JobLine {
  id: string;
  name: string;
  stage: string;
  revision: number;
  updated: string;
  updated_by: string;
  conflicts: number;
}

export interface Both {
  path: string;
  was: Value;
  mine: Value;
  theirs: Value;
  theirs_by: string;
  theirs_at: string;
}

export interface Conflict {
  kind: string;
  id: string;
  who: string;
  at: string;
  revision: number;
  both: Both[];
  edits: Edit[];
}

export interface JobView {
  id: string;
  name: string;
  stage: string;
  revision: number;
  text: string;
  values: Tree;
  lines: Record<string, number>;
  updated: string;
  updated_by: string;
  conflicts: Conflict[];
}

export interface Counts {
  stop: number;
  fix: number;
  ask: number;
  note: number;
}

export type Level = keyof Counts;

export interface Finding {
  number: number;
  level: Level;
  rule: string;
  place: string;
  line?: number | null;
  says: string;
  found: string;
  required: string;
  mend: string;
  would_tell: string;
  figures: string[];
  source: string;
}

export interface Headline {
  design_outdoor_c?: number | null;
  heating_load_w?: number | null;
  cooling_load_w?: number | null;
  heating_need_kwh?: number | null;
  units_give_w?: number | null;
  heads_share?: number | null;
  seasonal_cop?: number | null;
  cycling_hours?: number | null;
  cost?: number | null;
  cost_now?: number | null;
  carbon_kg?: number | null;
  carbon_now_kg?: number | null;
  electric_peak_w?: number | null;
  lines: { what: string; shown: string; figure: string }[];
}

export interface DoorsWarmth {
  outdoor_c: number;
  doors: string;
  air_c: number;
  shown: string;
  figure: string;
}

export interface RoomView {
  name: string;
  path: string;
  storey: string;
  used_for: string;
  outline_m: [number, number][];
  floor_m2?: number | null;
  floor_shown: string;
  heated: boolean;
  setting_c?: number | null;
  heads: string[];
  loss_w?: number | null;
  loss_shown: string;
  loss_figure: string;
  parts: { through: string; heat_w: number; shown: string }[];
  cooling_w?: number | null;
  cooling_shown: string;
  warmth: DoorsWarmth[];
  year?: {
    by_heads_kwh: number;
    by_heaters_kwh: number;
    short_1k_h: number;
    short_2k_h: number;
    least_c: number;
    mean_c: number;
    greatest_c: number;
    at_coldest_c: number;
  } | null;
}

export interface UnitLine {
  name: string;
  unit: string;
  need_at_0c_w?: number | null;
  need_per_k_w?: number | null;
  balance_c?: number | null;
  cycles_above_c?: number | null;
  at_design_w?: [number, number] | null;
  span_c?: [number, number] | null;
  heat_kwh: number;
  seasonal_cop?: number | null;
  hours: Record<string, number>;
}

export interface CapacityView {
  outdoor_c: number[];
  least_w: number[];
  most_w: number[];
  need_at_0c_w?: number | null;
  need_per_k_w?: number | null;
  balance_c?: number | null;
  design_c?: number | null;
  design_load_w?: number | null;
  units: UnitLine[];
  hours: { low_c: number; high_c: number; hours: number; cycling_h: number; full_h: number; heat_w: number; heads_w: number }[];
}

export interface OptionRow {
  choice: string;
  units: number;
  heads: number;
  heads_share?: number | null;
  seasonal_cop?: number | null;
  cycling_h: number;
  full_h: number;
  cannot_tell_h: number;
  electricity_kwh: number;
  fuel_kwh: number;
  cost?: number | null;
  carbon_kg?: number | null;
  electric_peak_w: number;
  coldest_room?: string | null;
  coldest_c?: number | null;
  short_2k_h: number;
}

export interface PlanView {
  northwall: string;
  revision: number;
  job: string;
  stage: string;
  units: string;
  station: string;
  plan_north_deg: number;
  headline: Headline;
  counts: Counts;
  waiting: { what: string; place: string; how: string }[];
  findings: Finding[];
  rooms: RoomView[];
  charts: {
    capacity?: CapacityView | null;
    weather_hours: [number, number][];
    options: OptionRow[];
  };
  drawings: string[];
  weather_notes: string[];
  caution: string;
}

export interface YearView {
  hours: number;
  run: string;
  outdoor_c: number[];
  heat_w: number[];
  heads_w: number[];
  heaters_w: number[];
  electric_w: number[];
  state: number[];
  states: string[];
  short: number[];
}

export interface Why {
  key: string;
  symbol: string;
  what: string;
  shown: string;
  formula: string;
  source: string;
  line?: number | null;
  known?: string | null;
  again?: boolean;
  inputs: Why[];
}

export interface Trial {
  problems: Problem[];
  headline?: Headline | null;
  room_loss_w: Record<string, number>;
  counts: Counts;
}

export interface Problem {
  path: string;
  line: number;
  says: string;
  got: string;
  allowed: string;
  mend: string;
}

export interface Refusal {
  kind: string;
  says: string;
  got: string;
  allowed: string;
  mend: string;
  problems: Problem[];
}

export interface Kept {
  id: string;
  revision: number;
  now: number;
  name: string;
  headline: Headline;
  counts: Counts;
}

export interface Instrument {
  id: string;
  accuracy: string;
  step: string;
  share?: string | null;
  calibrated?: string | null;
}

export interface RestsOn {
  kind: string;
  refrigerant: string;
  elevation?: string | null;
  lines: { tube: string; length: string }[];
  volumes?: { what: string; volume: string; within?: string | null }[];
  gauge: Instrument;
  thermometer?: Instrument | null;
  [key: string]: unknown;
}

export interface Reading {
  n: number;
  at: string;
  at_s: number;
  pressure_pa: number;
  line_c?: number | null;
  typed: string;
  who: string;
}

export interface TestView {
  test: string;
  kind: string;
  rests_on: RestsOn;
  steps: { gauge_pa: number; hold_s: number; says: string }[];
  cautions: string[];
  readings: Reading[];
  verdict: string;
  says: string;
  would_tell: string;
  length_s: number;
  wait_s?: number | null;
  visible_g_per_year?: number | null;
  worth_g_per_year?: number | null;
  gas_left: [number, number][];
  notes: string[];
  last_hash: string;
}

export interface PhotoView {
  id: string;
  shows: string;
  note: string;
  who: string;
  at: string;
  width: number;
  height: number;
  bytes: number;
}
