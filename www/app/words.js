// What the page says, in one place. {boot} and its like become the words of
// the reader's choice; {name} anything else is filled in by the caller.

/** @typedef {'british'|'american'} Dialect */

/** @type {Record<Dialect, Record<string, string>>} */
const DIALECT = {
  british: { boot: 'boot', Boot: 'Boot', tyre: 'tyre', litres: 'litres', colour: 'colour', bonnet: 'bonnet', windscreen: 'windscreen', estate: 'estate', saloon: 'saloon', aluminium: 'aluminium' },
  american: { boot: 'trunk', Boot: 'Trunk', tyre: 'tire', litres: 'liters', colour: 'color', bonnet: 'hood', windscreen: 'windshield', estate: 'wagon', saloon: 'sedan', aluminium: 'aluminum' },
};

const WORDS = {
  product: 'Bootfloor',
  demo_note: 'Demo job: an invented car and invented speakers. Change anything; make it yours.',
  working: 'Working it out…',
  stale: 'The picture shows the last values that could be calculated.',
  engine_trouble: 'The calculation stopped: {why}',
  answer_region: 'Answer',
  car_region: 'The car, from the side',
  plan_region: 'The car, from above',
  curves_region: 'Curves',
  sheet_region: 'Settings',
  hint_drag: 'Drag the grip, or touch any part.',
  side_view: 'From the side',
  plan_view: 'From above',

  undo: 'Undo', redo: 'Redo', menu_job: 'Job', menu_view: 'View',
  open_file: 'Open a job file…', save_file: 'Save to a file', new_job: 'Start again from the demo',
  title: 'Name of this job',
  units: 'Units', metric: 'Metric', imperial: 'Imperial',
  theme: 'Theme', theme_auto: 'As the device', theme_light: 'Light', theme_dark: 'Dark', theme_sun: 'Sunlight',
  dialect: 'Words', british: 'Boot, tyre', american: 'Trunk, tire',
  file_refused: 'That file could not be opened: {why}',
  file_opened: 'Opened {name}. Undo brings back the job you had.',

  part_cabin: 'Cabin', part_doors: 'Doors', part_seats: 'Seats', part_amplifier: 'Amplifier', part_sub: 'Sub', part_box: 'Box',
  part_open: '{part}: {value}. Change it',
  close: 'Close', close_sheet: 'Close {part}',
  assumed: 'assumed',
  assumed_help: 'Nobody measured or chose this value. Change it where it stands.',
  assumed_key: 'assumed: nobody measured or chose it',
  more: 'More',

  box_sealed: 'Sealed', box_vented: 'Vented', box_infinite_baffle: 'Infinite baffle',
  box_passive_radiator: 'Passive radiator', box_bandpass4: 'Band-pass', box_bandpass6_series: 'Band-pass, 6th order, series',
  box_bandpass6_parallel: 'Band-pass, 6th order, parallel', box_line: 'Quarter-wave', box_aperiodic: 'Aperiodic',
  box_brief_sealed: 'Sealed', box_brief_vented: 'Vented', box_brief_infinite_baffle: 'Infinite baffle', box_brief_passive_radiator: 'Passive', box_brief_bandpass4: 'Band-pass', box_brief_line: 'Line', box_brief_aperiodic: 'Aperiodic',
  net_volume: 'Net volume',
  fires: 'Cone fires', fires_up: 'Up', fires_down: 'Down', fires_front: 'Forward', fires_rear: 'Rearward', fires_left: 'Left', fires_right: 'Right',

  sub_n: 'Sub {n}', sub_which: 'Which sub', sub_add: 'Add another sub', sub_remove: 'Take this one away',
  driver_name: 'Name', size: 'Nominal size',
  series: 'In series', parallel: 'Strings in parallel', typical: 'Typical values, not of a real driver',
  fs: 'Resonance fs', qts: 'Total Q, Qts', qes: 'Electrical Q, Qes', qms: 'Mechanical Q, Qms', vas: 'Vas', sd: 'Cone area Sd', re: 'Coil resistance Re', le: 'Coil inductance Le',
  xmax: 'Cone travel Xmax', power: 'Rated power', bl: 'Force factor Bl', mms: 'Moving mass Mms', driver_depth: 'Mounting depth', driver_volume: 'Volume it takes up',
  stated: 'From the data sheet', not_stated: 'not stated',

  amp_sub: 'Sub channel', amp_doors: 'Door channel',
  rated_w: 'Power', rated_ohm: 'Load it is rated at', min_ohm: 'Lowest load allowed', cable_m: 'Speaker cable, one way', cable_mm2: 'Cable, copper area',
  lowpass: 'Low-pass', highpass: 'High-pass', corner: 'Frequency', slope: 'Slope', slope_value: '{db} dB an octave', shape: 'Shape',
  butterworth: 'Butterworth', linkwitz_riley: 'Linkwitz-Riley', bessel: 'Bessel', off: 'Off', on: 'On',
  gain: 'Gain', delay: 'Delay', polarity: 'Polarity', normal: 'Normal', inverted: 'Inverted',
  drive: 'Voltage at full power', load_min: 'Lowest load met',
  caution_fuse: 'Fuse the supply cable close to the battery, to suit the cable. Wiring is work for a qualified person; local rules apply.',
  caution_hearing: 'Loud bass harms hearing, the louder the sooner. Keep it short, and wear protection while you test.',

  doors_fitted: 'Door speakers', fitted: 'Fitted', none: 'None', door_volume: 'Air in the door', door_leak: 'Holes in the inner skin', door_place: 'Place in the door',

  place_x: 'Cone from the front of the cabin', place_z: 'Cone above the floor',
  seat_counts: 'Seat that counts most', on_board: 'On board', occupied: 'Taken', empty: 'Empty', seat_x: 'Ears from the front', seat_z: 'Ears above the floor', seat_y: 'Off the centre line',
  seat_short_wheel: 'Wheel', seat_short_passenger: 'Passenger', seat_short_rear_right: 'Rear right', seat_short_rear_left: 'Rear left', seat_short_rear_middle: 'Rear',
  seat_wheel: 'At the wheel', seat_passenger: 'Front passenger', seat_rear_right: 'Rear right', seat_rear_left: 'Rear left', seat_rear_middle: 'Rear middle',
  aim: 'Wish', aim_lowest: 'Lowest note', aim_level: 'Level',

  body: 'Body style', cabin_length: 'Length', cabin_volume: 'Air in the cabin',
  body_small_hatch: 'Small hatch', body_hatch: 'Hatch', body_saloon: '{Saloon}', body_estate: '{Estate}', body_off_roader_short: 'Short off-roader', body_off_roader_long: 'Long off-roader',
  body_panel_van: 'Panel van', body_pick_up: 'Pick-up cab', body_coupe: 'Coupe', body_open_car: 'Open car',
  body_change: 'Choosing a body style replaces the car’s dimensions by typical ones. Undo brings yours back.',
  boot: '{Boot}', boot_length: '{Boot} length', boot_width: '{Boot} width', boot_height: '{Boot} height', boot_floor: '{Boot} floor above cabin floor', boot_x: 'Seat back from the front', boot_slope: 'Lean of the seat back',
  air: 'Air', temperature: 'Temperature', unity: 'The cabin lifts the bass below', half_wave: 'Half a wave fits the length at', first_modes: 'First standing waves',

  bad_number: '“{text}” is not a number. Type one, such as {example}.',
  bad_unit: '“{text}” has a unit that does not belong here. Use {unit}.',
  bad_range: '{label} must be from {min} to {max}.',
  bad_empty: 'Type a value from {min} to {max}.',

  seat_shown: 'Heard at', cursor: 'Frequency', cursor_value: '{hz}: {level} dB at the seat',
  show_free: 'Without the car', show_table: 'Table', table_title: '{chart}: table', save_csv: 'Save as CSV', frequency: 'Frequency',
  c_level: 'Level at the seat', c_gain: 'What the car adds', c_max: 'Loudest it can play', c_travel: 'Cone travel', c_air: 'Air speed in the port', c_load: 'Load on the amplifier', c_delay: 'Group delay',
  s_sub: 'Sub', s_doors: 'Doors', s_sum: 'Together', s_free: 'Sub, no car', s_gain: 'At the seat', s_asymptote: '12 dB an octave', s_max: 'Sub', s_travel: 'Sub', s_air: 'Port', s_load: 'Impedance', s_delay: 'Together',
  mark_xmax: 'Xmax {v}', mark_min_ohm: 'Amplifier’s lowest {v}', mark_air: 'Often heard above {v}',
  sum_level: 'If nothing ran out: {at20} dB at 20 Hz, {at40} dB at 40 Hz, {at80} dB at 80 Hz.',
  sum_gain: 'Adds {at30} dB at 30 Hz and {at60} dB at 60 Hz{seat}.',
  sum_max: 'Stopped by {runs}.', sum_max_to: '{limit} up to {hz}', sum_max_then: ', then by ', sum_max_more: ', and so on',
  sum_travel: 'At full power the cone moves most, {v} each way, at {hz}{verdict}.', travel_over: '; that is beyond its Xmax below {hz}', travel_under: '; within its Xmax',
  sum_air: 'The air in the port is fastest, {v}, at {hz}.',
  sum_load: 'The load is lowest, {v}, at {hz}{verdict}.', load_under: ': below what the amplifier allows', load_fine: ': the amplifier allows it',
  sum_delay: 'Longest {v} at {hz}.',
  limit_0: 'nothing', limit_1: 'cone travel', limit_2: 'amplifier volts', limit_3: 'amplifier current', limit_4: 'heat in the coil', limit_5: 'port air speed', limit_6: 'passive travel',
  place_unity: 'lifts below {hz}', offline_ready: 'Ready offline.', update_ready: 'A newer version is ready.', update_now: 'Change over',
};

/** @typedef {keyof typeof WORDS} Key */

/** @type {Dialect} */
let dialect = 'british';

/** @param {Dialect} next */
export function speak(next) {
  dialect = next;
}

/**
 * The words for a key, filled in.
 * @param {Key} key
 * @param {Record<string, string|number>} [values]
 */
export function say(key, values = {}) {
  const local = /** @type {Record<string, string>} */ (DIALECT[dialect]);
  return WORDS[key].replace(/\{(\w+)\}/g, (whole, name) => {
    if (Object.hasOwn(values, name)) return String(values[name]);
    const low = name.toLowerCase();
    const word = local[name] ?? local[low];
    if (word === undefined) return whole;
    return name === low ? word : word.charAt(0).toUpperCase() + word.slice(1);
  });
}

/**
 * The words for a key made of a stem and a document's word; the document's
 * word itself where there are none, so an unknown one is shown, not lost.
 * @param {string} stem
 * @param {string|number} word
 */
export function sayOf(stem, word) {
  const key = `${stem}_${word}`;
  return Object.hasOwn(WORDS, key) ? say(/** @type {Key} */ (key)) : String(word).replaceAll('_', ' ');
}
