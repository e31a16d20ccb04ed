// What the workshop says: drivers, boxes, the designer, comparing and joining.
// {boot} and {Boot} become the reader's own word; any other name in braces is
// filled in by the caller.

import { phrases } from '../phrases.js';
import { BOX_WORDS } from './words-box.js';
import { DRIVER_WORDS } from './words-driver.js';

const WORDS = {
  ...BOX_WORDS,
  ...DRIVER_WORDS,

  close: 'Close', close_named: 'Close “{title}”', undo: 'Undo', undone: 'Undone.', stop: 'Stop', stopped: 'Stopped.', trouble: 'This could not be worked out: {why}',
  working: 'Working it out…', apply: 'Put it in', applied: '{what} is in the job. Undo takes it back.', or_less: 'leave empty for no bound',
  bad_number: '“{text}” is not a number. Type one, such as {example}.', bad_unit: '“{text}” has a unit that does not belong here. Use {unit}.',
  bad_range: '{label} must be from {min} to {max}.', bad_empty: 'Type a value from {min} to {max}.',

  offer_design: 'Find the best box', offer_compare: 'Compare', offer_pin: 'Pin this version', offer_driver: 'Choose, paste or measure a driver', offer_wiring: 'Wiring and its load',
  offer_join: 'Join sub and doors', offers: 'Tools',

  design_title: 'Find the best box', design_lead: 'Every box is tried in this car, with this driver and amplifier, and judged where it counts most: {seat}.',
  aim: 'Best means', aim_balanced: 'Balanced', aim_lowest: 'Plays lowest', aim_loudest: 'Plays loudest', aim_even: 'Most even', aim_smallest: 'Smallest that does it',
  aim_say_balanced: 'Level, depth, evenness and size weighed together.', aim_say_lowest: 'The lowest note it can still play at full voice.', aim_say_loudest: 'The most level over the whole band.',
  aim_say_even: 'The least ripple about the target.', aim_say_smallest: 'The least air that still plays {level} down to {hz}.',
  types: 'Types to try', types_none: 'Choose at least one type.', bounds: 'Bounds', from_hz: 'From', to_hz: 'To', net_min: 'Least air', net_max: 'Most air', port_most: 'Longest port', speed_most: 'Fastest air in the port',
  slope: 'Target', slope_flat: 'Flat', slope_house: 'Falling 1.5 dB an octave', slope_steep: 'Falling 3 dB an octave',
  must_fit: 'Must stand in the {boot}, in the share that may go', design_go: 'Find it', design_again: 'Find it again', design_none: 'No box of these types keeps within the bounds.',
  design_done: '{n} found; {tried} boxes were tried.', design_stale: 'The job has changed since. Find it again for an answer that fits.',
  design_row: '{net} of air, down to {reach}, {level} dB', design_ripple: '{n} dB ripple', design_stopped: 'below {hz} {limit} stops it', found_by: 'Best of each type', failed_types: 'Types that gave none',
  trade: 'What more or less air buys', trade_lead: 'Touch a point: its box goes into the job at once. One Undo takes it all back.', trade_reach: 'Plays down to, Hz', trade_level: 'Level, dB', trade_air: 'air, {unit}',
  trade_slider: 'Air of a {type} box', trade_value: '{net}: down to {reach}, {level} dB', trade_label: 'Volume against reach and level; each point is a box.',
  alignments: 'Classic alignments', alignments_lead: 'The literature’s responses for this driver in free air, computed with the losses assumed. The car changes them; they are starting points.',
  align_put: 'Put in {name}',

  compare_title: 'Compare', compare_lead: 'Pin up to four versions of this job. Beside them stands the job as it is now.', compare_none: 'Nothing is pinned yet. Pin this version, change something, and come back.',
  compare_now: 'Now', compare_name: 'Name of version {n}', compare_drop: 'Unpin {name}', compare_take: 'Go back to {name}', compare_full: 'Four are pinned. Unpin one first.', compare_curves: 'Level, {seat}', compare_differs: 'What differs',
  compare_same: 'Nothing differs.', compare_best: 'best', compare_pinned: 'Pinned as {name}.', version: 'Version {n}', compare_table: 'Side by side', compare_level: '{name}: {level} dB at 40 Hz',

  remedies: 'What to do about it', remedies_none: 'Nothing stops it short of what was asked.', remedy_level: '{sign}{n} dB', remedy_reach: '{sign}{n} Hz deeper', remedy_same: 'no change of level', remedy_no: 'No single change frees this.',

  join_title: 'Join sub and doors', join_lead: 'Finds the delay, polarity and level that keep sub and doors nearest the target over an octave each side of the crossover, and that stay good when car and speakers differ from what is stated.',
  join_target: 'Target', join_seats: 'For', join_seat_main: 'The seat that counts most', join_seats_all: 'Every seat', join_filters: 'May change corners and slopes too', join_corner: 'Crossover', join_corner_auto: 'as now',
  join_go: 'Join them', join_before: 'Before', join_after: 'After', join_ripple: 'Strays from the target, rms', join_likely: 'In nine of ten likely cars', join_dip: 'Deepest dip', join_peak: 'Highest peak', join_dip_at: '{db} at {hz}',
  join_take: 'Use these settings', join_taken: 'The settings are in. Undo takes them back.', join_same: 'Nothing to change.', join_doors: 'No door speakers are fitted: there is nothing to join.', join_curve: 'Level about the crossover, {seat}',
  join_by_path: 'From distance alone the delay would be {ms}.',
  eq_title: 'Equaliser', eq_lead: 'A few cuts that take the worst peaks out of the sum: {seat}. Dips are left: boosting them costs travel and heat.', eq_bands: 'Bands at most', eq_go: 'Propose cuts', eq_take: 'Add these to every channel', eq_none: 'No cut is worth making.',
  eq_band: '{kind} at {hz}, {gain} dB, Q {q}', reach_foot: '{hz} or lower',
  set_title: 'Settings for the processor', set_sub: 'Sub', set_doors: 'Doors', set_highpass: 'High-pass', set_lowpass: 'Low-pass', set_delay: 'Delay', set_path: 'as distance', set_samples: 'at 48 kHz', set_level: 'Level', set_polarity: 'Polarity', set_eq: 'Equaliser {n}',
  set_filter: '{shape}, {slope} dB/oct, {hz}', set_none: 'off', set_sample: '{n} samples', peak: 'Peak', low_shelf: 'Low shelf', high_shelf: 'High shelf', set_copy: 'Copy as text', set_copied: 'Copied.', set_copy_failed: 'This browser would not copy. Select the table instead.',
  hearing: 'Test tones at full power harm hearing within minutes. Turn down, keep it short, wear protection.',
};

export const { say, sayOf } = phrases(WORDS);
