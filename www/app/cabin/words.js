// What the cabin's own views say, in one place. {boot} and {Boot} become the
// reader's own word; any other name in braces is filled in by the caller.

import { phrases } from '../phrases.js';

const WORDS = {
  stage: 'The cabin', look: 'Show', look_tape: 'Measure', look_pressure: 'Pressure', look_waves: 'Waves', side: 'Side', above: 'Above', cut: 'Seen from',
  whole_car: 'Whole car', car: 'Car', pressure_link: 'See the pressure',
  along: 'From the front', height: 'Floor to roof', floor: 'Floor above the lowest', width: 'Width', cuboid_along: 'Length', place_n: 'place {n}', place_named: '{what}, {place}',
  more_places: 'One more place', fewer_places: 'Take out {place}',
  shape: 'Shape', shape_cuboid: 'Length, width, height', shape_stations: 'Place by place', measure: 'Measure on the drawing', measures_left: '{n} of {of} measured',
  seat_move: '{seat}, {there}', seat_row: 'Ears of the row: {seats}', taken: 'taken', empty: 'empty',
  made_of: 'What it is made of', surface_floor: 'Floor', surface_roof: 'Roof lining', surface_sides: 'Doors and sides', surface_front: 'Dashboard end', surface_rear: 'Rear end',
  glass: 'Glass in sides and ends', tightness: 'Gaps and vents', tight_40: 'Tight', tight_100: 'Usual', tight_200: 'Draughty', tight_400: 'Vents open', leak: 'All gaps together',
  give: 'Panels that breathe', give_5: 'Stiff', give_10: 'Usual', give_20: 'Thin', give_40: 'Fabric', give_pct: 'Give of the panels, the air’s being 100 %',
  people: 'On board',
  open: 'Standing open', open_window_right: 'Right window, a hand down', open_window_left: 'Left window, a hand down', open_sunroof: 'Sunroof', open_tailgate: 'Tailgate', open_roof_off: 'Roof off', open_area: 'Open area',
  boot: '{Boot}', boot_joined: 'One room with the cabin', boot_separate: 'A room of its own', boot_kind: 'The {boot} is', hatch: 'Holes into the cabin', hatch_0: 'None', hatch_300: 'Shelf', hatch_600: 'Ski hatch', hatch_1500: 'Wide', hatch_area: 'Area of the holes',
  seat_back: 'Seat back', seat_back_6: 'Foam, board', seat_back_12: 'Steel', seat_back_20: 'Heavy', seat_back_mass: 'Its mass by area', folded: 'Seats', folded_no: 'Up', folded_yes: 'Folded',
  boot_size: 'Size of the {boot}', kg_m2: 'kg/m²',
  pressure_hz: 'Frequency of the picture', pressure_say: 'At {hz} it is loudest at {high} and quietest at {low}; the picture spans {span} dB.', pressure_even: 'At {hz} the whole car rises and falls together, within {span} dB.',
  no_picture: 'No picture: {why}', picture_side: 'Pressure in the car from the side', picture_above: 'Pressure in the car from above', scale: 'Level, dB',
  wave_n: 'Standing wave {n}, {hz}', wave_nulls: 'Null at {seats}', wave_heard: 'Heard at every seat', wave_say: '{hz}: at {seats} this wave is hardly heard, as all along the bold line. More power does not help there.', wave_say_none: '{hz}: this wave reaches every seat; along the bold line it is silent.',
  waves_list: 'Standing waves of the cabin', weak: 'none',
  place_wheel: 'the wheel', place_passenger: 'the front passenger’s seat', place_rear_right: 'the rear right seat', place_rear_left: 'the rear left seat', place_rear_middle: 'the rear middle seat', and: '{list} and {last}',
  sure: 'Eight times in ten: {reach}; {level}.', sure_level: 'Eight times in ten: {level}.', below_hz: '{low} Hz or lower', below_to_hz: 'below {low} to {high} Hz', between_hz: '{low} to {high} Hz', between_db: '{low} to {high} dB', about: 'about {v}',
  learn: 'Learn from a measurement', learn_lead: 'A response measured at a seat tells what a tape cannot.', learn_open: 'Open a file…', learn_paste: 'Measured response: frequency and level in columns', learn_example: '20 98.2\n25 101.5\n31.5 103.0\n…',
  playing: 'Playing', playing_sub: 'Sub alone', playing_doors: 'Doors alone', playing_both: 'Both', at_seat: 'Microphone at', calibrated: 'Level', calibrated_yes: 'Calibrated', calibrated_no: 'Shape only', drive: 'Test signal below full scale', drive_bad: 'Give how far the test signal stood below full scale, 0 to 80 dB.',
  understood: '{n} readings from {low} to {high}{phase}.', with_phase: ', with phase', learn_go: 'Learn', learn_stop: 'Stop', learn_again: 'Change the measurement', learning: 'Fitting the cabin to it: step {done} of {of}', keep: 'Keep with this car', put_back: 'Put back', discard: 'Leave as it was', learn_close: 'Close',
  error_before: 'Before', error_after: 'After', error_rms: '{v} dB apart', nothing_learned: 'Nothing to keep: this measurement cannot tell more than the tape.', verdict_told: 'told', verdict_roughly: 'roughly', verdict_untold: 'cannot be told', value_leak: 'Gaps and vents', value_damping: 'Damping', value_volume: 'Air that counts', value_level: 'Level', times: '× {v}', plus_db: '{v} dB',
  learned_on: 'Learned on {on}', learned_what: 'Gaps × {leak}, damping × {damping}, air × {volume}', learned_kept: 'Every answer uses it.', learned_label: 'Learned cabin', curve_measured: 'Measured', curve_before: 'Before', curve_after: 'After', learn_curves: 'Measured and predicted',
  learn_failed: 'This could not be learned: {why}', caution_sweep: 'Play test tones quietly at first, and wear hearing protection.',
};

/** @typedef {keyof typeof WORDS} Key */

export const { say, sayOf } = phrases(WORDS);

/** Seats in a sentence: "the wheel and the rear left seat". @param {string[]} ids */
export function seatsInWords(ids) {
  const names = ids.map((id) => sayOf('place', id));
  const last = names.pop() ?? '';
  return names.length ? say('and', { list: names.join(', '), last }) : last;
}
