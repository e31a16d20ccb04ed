// What the engine answers to the workshop's calls, as far as the page reads it.

import type { Box, Channel, Driver, Filter, Job, Place } from '../job.js';

export interface Set { at: string; value: any }
export interface Finding { at: string; level: string; say: string }

export interface Outside {
  form: string; width_mm: number; height_mm: number; depth_mm: number; litres: number; left_pct: number; say: string; passes: boolean; pass_say?: string;
}
export interface Design {
  type: string; name: string; box: Box; place: Place; set: Set[]; net_l: number; reach_hz: number; level_db: number; asked_hz: number; ripple_db: number; limit: string; limit_below_hz: number;
  speed_ms: number; port_mm: number; kept: boolean; say?: string; outside?: Outside; trade: { net_l: number; reach_hz: number; level_db: number; box: Box }[]; tried: number;
}
export interface Alignment { name: string; type: string; title: string; net_l: number; tuning_hz?: number; qtc?: number; f3_hz: number; peak_db: number; say: string; box: Box }
export interface DesignReply { findings: Finding[]; partial?: boolean; designs: Design[]; failed: { type: string; say: string }[]; alignments: Alignment[] }

export interface Remedy { key: string; say: string; amount?: number; unit?: string; cost: number; level_db: number; reach_hz: number; set: Set[] }
export interface LimitMet { code: number; limit: string; from_hz: number; to_hz: number; lost_db: number; say: string; remedies: Remedy[] }
export interface RemediesReply { findings: Finding[]; limits: LimitMet[] }

export interface CompareRow { key: string; name: string; unit?: string; values: number[]; words: string[]; best: number; differs: boolean }
export interface CompareReply { columns: string[]; rows: CompareRow[]; say: string[] }

export interface Ripple { rms_db: number; likely_db: number; dip_db: number; dip_hz: number; dip_seat: string; at_dip_db: number; peak_db: number }
export interface Joined {
  crossover_hz: number; from_hz: number; to_hz: number; subs: Channel[]; doors: Channel; changed: boolean; before: Ripple; after: Ripple; geometry_ms: number; say: string; notes?: string[];
  hz: number[]; seats: string[]; before_db: number[][]; after_db: number[][];
}
export interface Equalised { filters: Filter[] | null; reasons: string[] | null; say: string; before_db: number; after_db: number; hz: number[]; seats: string[]; before: number[][]; after: number[][] }

export interface DriverSay { key: string; level: string; say: string }
export interface ShelfEntry { id?: string; kind?: string; build?: string; driver: Driver; notes: DriverSay[] }
export interface ShelfReply { drivers: ShelfEntry[]; notes: string[]; csv?: string }
export interface SheetReading { key: string; value: number; unit: string; name: string; source: string; line: number; sure: boolean; why?: string; note?: string }
export interface SheetModel { name: string; readings: SheetReading[]; notes: DriverSay[]; sure: Driver; all: Driver }
export interface SheetReply { models: SheetModel[]; not_understood: { number: number; text: string; why?: string }[]; unused: { number: number; text: string; why?: string }[]; notes: string[] }
export interface FitReply {
  values: { key: string; name: string; value: number; plus: number; unit: string }[]; driver: Driver; rms_pct: number; steps: { do: string; formula?: string; result: number; unit?: string }[]; notes: string[]; points: number;
}
export interface Kept { id: string; driver: Driver }
export type Pinned = { name: string; job: Job };
