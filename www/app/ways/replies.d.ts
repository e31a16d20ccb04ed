// What the engine answers to the calls of the two short ways in.

import type { Driver, Job, Sub } from '../job.js';
import type { Finding } from '../views/model.js';

/** A sentence about a value that nobody gave. */
export interface Assumed {
  key: string;
  say: string;
  at?: string;
}

export interface Usual {
  body: string;
  boot_pct: number;
  music: string;
  loud: string;
}

export interface Questions {
  music: { key: string; name: string; lowest_hz: number; say?: string; source?: string }[];
  loud: { key: string; name: string; level_db: number; say?: string }[];
  bodies: { key: string; name: string; say?: string }[];
  /** What is taken where nothing is said. */
  assumed?: Partial<Usual>;
}

export interface Shelf {
  drivers?: { kind?: string; driver: Driver }[] | null;
}

/** A part of the boot that may be taken, mm; x from the foot of the seat back, y of its middle from the centre line. */
export interface Space {
  x_mm: number;
  y_mm: number;
  length_mm: number;
  width_mm: number;
  height_mm: number;
}

/** A part of the boot floor as the engine takes it, mm; the middle is to the right of the centre line. */
export interface Patch {
  from_seat_mm: number;
  middle_mm: number;
  length_mm: number;
  width_mm: number;
  height_mm: number;
}

export interface WhichRequest {
  body?: string;
  length_mm?: number;
  width_mm?: number;
  height_mm?: number;
  boot_pct?: number;
  space?: Patch;
  music?: string[];
  lowest_hz?: number;
  loud?: string;
  budget?: number;
  drivers?: Driver[];
}

export interface Outside {
  form: string;
  width_mm: number;
  height_mm: number;
  depth_mm: number;
  stand_x_mm?: number;
  litres?: number;
  left_l?: number;
  left_pct?: number;
  say?: string;
  passes?: boolean;
  pass_say?: string;
}

export interface Span {
  low: number;
  high: number;
}

/** Larger is better, 0 to 1; what is lacking and what is awkward count against it. */
export interface Scores {
  deeper: number;
  louder: number;
  smaller: number;
  short?: number;
  fuss?: number;
}

interface ChoiceBase {
  id: string;
  title: string;
  driver: Driver;
  count: number;
  type: string;
  reach_hz: number;
  level_db: number;
  asked_hz?: number;
  price?: number;
  power_w?: number;
  net_l: number;
  outside?: Outside | null;
  boot_left_l?: number;
  gain?: string;
  give_up?: string;
  why?: string;
  scores: Scores;
}

/** A choice as the engine gives it. */
export interface EngineChoice extends ChoiceBase {
  picked_for?: string[] | null;
  sub: Sub;
  job?: Job;
  band?: { reach_low_hz: number; reach_high_hz: number; level_low_db: number; level_high_db: number; say?: string };
}

export interface EngineWhich {
  partial?: boolean;
  findings?: Finding[] | null;
  assumed?: Assumed[] | null;
  asked: string;
  lowest_hz: number;
  level_db: number;
  space_l?: number;
  boot_l?: number;
  choices?: EngineChoice[] | null;
  others?: EngineChoice[] | null;
  out?: { title?: string; say: string }[] | null;
  job: Job;
}

/** A choice as the page shows it. */
export interface Choice extends ChoiceBase {
  picked_for: string[];
  job: Job;
  band?: { reach_hz: Span; level_db: Span; say?: string };
}

export interface WhichReply {
  findings: Finding[];
  assumed: Assumed[];
  asked: { lowest_hz: number; level_db: number; say: string };
  space_l?: number;
  boot_l?: number;
  choices: Choice[];
  others: Choice[];
  out: { title?: string; say: string }[];
}

export interface Chip {
  key: string;
  text: string;
  say: string;
  value?: unknown;
  /** Where the words stand in the line typed, UTF-16 units. */
  span: [number, number];
  doubtful?: boolean;
  /** What was guessed. */
  why?: string;
}

export interface QuickRequest {
  body?: string;
  size_in?: number;
  count?: number;
  type?: string;
  net_l?: number;
  power_w?: number;
  tuning_hz?: number;
}

export interface QuickReply {
  /** Nothing typed was understood: there is no answer. */
  nothing?: boolean;
  chips?: Chip[] | null;
  unknown?: { text: string; span: [number, number]; why?: string }[] | null;
  request?: QuickRequest;
  assumed?: Assumed[] | null;
  answer?: { headline: string; because: string; reach_hz?: number; level_db?: number };
  lines?: { key: string; say: string; value?: number; unit?: string }[] | null;
  outside?: Outside;
  fits?: boolean;
  job?: Job;
  findings?: Finding[] | null;
}
