// Made by `make types` from internal/job; meanings and units stand there.

export interface Job {
  format: string;
  version: number;
  title: string;
  notes?: string;
  demo?: boolean;
  air: Air;
  car: Car;
  subs: Sub[];
  doors: Doors;
  aim: Aim;
  tolerance: Tolerance;
  assumed?: string[];
}

export interface Air {
  temperature_c: number;
  humidity_pct: number;
  pressure_pa: number;
}

export interface Car {
  body: string;
  cabin: Cabin;
  boot: Boot;
  finish: Finish;
  openings?: Opening[];
  seats: Seat[];
  learned?: Learned;
}

export interface Sub {
  id: string;
  driver: Driver;
  series: number;
  parallel: number;
  box: Box;
  place: Place;
  channel: Channel;
}

export interface Doors {
  fitted: boolean;
  driver: Driver;
  volume_l: number;
  leak_cm2: number;
  place: Place;
  channel: Channel;
}

export interface Aim {
  lowest_hz: number;
  level_db: number;
  seat: string;
  music?: string[];
  boot_pct: number;
  budget?: number;
}

export interface Tolerance {
  fs_pct: number;
  q_pct: number;
  vas_pct: number;
  tape_mm: number;
  leak_pct: number;
  damping_pct: number;
}

export interface Cabin {
  shape: string;
  length_mm: number;
  width_mm: number;
  height_mm: number;
  stations?: Station[];
}

export interface Boot {
  separate: boolean;
  x_mm: number;
  length_mm: number;
  width_mm: number;
  height_mm: number;
  floor_mm: number;
  seat_slope_deg: number;
  opening_width_mm: number;
  opening_height_mm: number;
  hatch_cm2?: number;
  seat_back_kg_m2?: number;
  seats_folded?: boolean;
  wheel_arches_mm?: number;
}

export interface Finish {
  floor: string;
  roof: string;
  sides: string;
  front: string;
  rear: string;
  glass_pct: number;
  leak_cm2: number;
  panel_give_pct: number;
}

export interface Opening {
  kind: string;
  area_cm2: number;
  x_mm: number;
  y_mm: number;
  z_mm: number;
}

export interface Seat {
  id: string;
  x_mm: number;
  y_mm: number;
  z_mm: number;
  occupied: boolean;
}

export interface Learned {
  on: string;
  leak_scale: number;
  damping_scale: number;
  volume_scale: number;
  level_db: number;
}

export interface Driver {
  name: string;
  typical?: boolean;
  re_ohm?: number;
  fs_hz?: number;
  qes?: number;
  qms?: number;
  qts?: number;
  vas_l?: number;
  sd_cm2?: number;
  bl_tm?: number;
  mms_g?: number;
  cms_mm_n?: number;
  rms_kg_s?: number;
  le_mh?: number;
  l2_mh?: number;
  r2_ohm?: number;
  semi_k?: number;
  semi_n?: number;
  xmax_mm?: number;
  power_w?: number;
  size_in?: number;
  depth_mm?: number;
  cut_out_mm?: number;
  outside_mm?: number;
  volume_l?: number;
  mass_kg?: number;
  price?: number;
  coils?: number;
  coil_ohm?: number;
}

export interface Box {
  type: string;
  net_l: number;
  front_l: number;
  lining: number;
  ql: number;
  qa: number;
  port?: Port;
  front?: Port;
  passive?: Passive;
  line?: Segment[];
  tap_mm?: number;
  isobaric?: boolean;
  between_l?: number;
  vent?: Aperiodic;
  panel_mm: number;
  width_mm: number;
  height_mm: number;
  depth_mm: number;
  form?: string;
}

export interface Place {
  x_mm: number;
  y_mm: number;
  z_mm: number;
  fires: string;
  gap_mm?: number;
}

export interface Channel {
  filters: Filter[];
  gain_db: number;
  delay_ms: number;
  inverted: boolean;
  amplifier: Amplifier;
}

export interface Station {
  x_mm: number;
  floor_mm: number;
  roof_mm: number;
  width_mm: number;
}

export interface Port {
  shape: string;
  count: number;
  diameter_mm?: number;
  width_mm?: number;
  height_mm?: number;
  length_mm?: number;
  tuning_hz?: number;
  ends: string;
  qp: number;
}

export interface Passive {
  count: number;
  sd_cm2: number;
  mass_g: number;
  added_g: number;
  free_hz: number;
  qmp: number;
  xmax_mm: number;
}

export interface Segment {
  length_mm: number;
  start_cm2: number;
  end_cm2: number;
  stuffing: number;
}

export interface Aperiodic {
  area_cm2: number;
  resistance_pa_s_m: number;
}

export interface Filter {
  kind: string;
  shape?: string;
  order?: number;
  freq_hz: number;
  gain_db?: number;
  q?: number;
  off?: boolean;
}

export interface Amplifier {
  rated_w: number;
  rated_ohm: number;
  min_ohm: number;
  output_ohm: number;
  cable_m: number;
  cable_mm2: number;
  supply_v: number;
  efficiency_pct: number;
}
