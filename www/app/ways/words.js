// What the two short ways in say, in one place. {boot} and {Boot} become the
// reader's own word; any other name in braces is filled in by the caller.

import { phrases } from '../phrases.js';

const WORDS = {
  nav: 'Ways in',
  way_which: 'Which sub?', way_quick: 'Quick answer', way_job: 'Full job',
  offer_which: 'I know my car, not the rest', offer_quick: 'One line, one answer', offer_job: 'Every measure; here, a demo',
  title_which: 'Which sub? · Bootfloor', title_quick: 'Quick answer · Bootfloor', title_job: 'Bootfloor: which sub, in which box, in this car',

  question_of: 'Question {n} of {of}', back: 'Back', next: 'Next', finish: 'See what suits',
  skip: 'Skip', unsure: 'Not sure', if_skipped: 'If you skip this, we take {what}.',
  trouble: 'This could not be worked out: {why}', again: 'Try again',

  car_title: 'What car is it for?', car_lead: 'The nearest shape will do. They are drawn to one scale.',
  tape: 'I have a tape measure', tape_lead: 'Measure inside. Leave out what you cannot reach.',
  tape_length: 'Length', tape_length_help: 'from the foot of the windscreen to the inside of the tail',
  tape_width: 'Width', tape_width_help: 'from door to door', tape_height: 'Height', tape_height_help: 'from floor to roof',
  assume_body: 'a {name}',

  boot_title: 'How much of the {boot} will you give up?', boot_lead: 'Touch the {boot} and drag the part that may go.',
  boot_picture: 'The {boot} from the side, the part that may go marked', boot_length: 'Length that may go', boot_height: 'Height that may go',
  boot_slice: 'A slice', boot_third: 'A third', boot_half: 'Half', boot_all: 'All of it', boot_shares: 'How much',
  side: 'Across', side_whole: 'Whole width', side_left: 'Left side', side_right: 'Right side',
  boot_takes: 'Up to {taken} of {all} litres may go.', boot_crates: 'Behind it stand {n} of 60 × 40 × 30 cm.', boot_crates_none: 'Behind it there is no room for a crate of 60 × 40 × 30 cm.',
  boot_crate: 'Behind it stands a crate of 60 × 40 × 30 cm.', crates_many: '{n} crates', assume_boot: '{pct} % of the {boot}',

  music_title: 'What do you listen to?', music_lead: 'Touch all that you play. The longer the wave, the deeper it goes.', music_hz: 'Show the notes in hertz',
  music_each: '{name}, down to {hz}', assume_music: '“{name}”, down to {hz}',

  loud_title: 'How loud should it go?', loud_lead: 'At the wheel, when you turn it right up.', assume_loud: '“{name}”',
  loud_db: '{db} dB', loud_caution: 'Loud sound harms hearing for good, and faster the louder it is: above 100 dB within minutes a day. It also hides horns and sirens. Keep the loud moments short.',

  spend_title: 'What would you spend?', spend_lead: 'On the sub itself, in the money your price list is in.', spend_lead_invented: 'On the sub itself. The typical drivers and their prices are invented; take them as a guide.', spend_label: 'At most',
  spend_bad: '“{text}” is not an amount. Type digits alone, such as 250, or leave it empty for any price.', spend_range: '“{text}” cannot be meant: an amount is from {min} to {max}. Leave it empty for any price.', spend_none: 'any price',

  working: 'Trying boxes in your car…', working_n: '{done} of {of} tried', stop: 'Stop', stopped: 'Stopped. These are the best of what was tried.',
  stopped_none: 'Stopped before anything was found.', found_one: 'One choice suits this car', found_many: '{n} choices suit this car', found_none: 'Nothing on the shelf suits this car',
  none_lead: 'Give up more of the {boot}, or ask for less depth or loudness, and try again.',
  so_far: 'Best so far, while the rest is tried', number_1: 'One', number_2: 'Two', number_3: 'Three', number_4: 'Four', number_5: 'Five',
  assumed_n: 'Assumed, since nobody said ({n})', change: 'Change', answers: 'Your answers',
  mix_title: 'What matters most?', mix_deeper: 'Deeper', mix_louder: 'Louder', mix_smaller: 'Smaller', mix_value: '{pct} per cent', mix_picture: 'Drag the dot',
  picked_balanced: 'Balanced', picked_smallest: 'Smallest', picked_deepest: 'Deepest', picked_loudest: 'Loudest', picked_cheapest: 'Least spent',
  gain: 'For it:', give_up: 'Against it:', reach: 'Reaches', level: 'Plays', left: '{Boot} left', outside: 'Box outside', amplifier: 'Amplifier', price: 'Price',
  reach_below: '{hz} and lower', price_typical: 'Price, invented', asked: 'Asked for: {what}.', may_go: 'Up to {taken} of {all} litres of {boot} may go.',
  between: '({low} to {high})', asked_mark: 'asked', litres: '{n} litres', reach_scale: 'How deep', level_scale: 'How loud',
  band_reach: 'Reaches {value}; as sure as the data are, between {low} and {high}.', band_level: 'Plays {value}; between {low} and {high}.',
  band_note: 'The dot is what is predicted, the pale bar where the truth may lie, since data sheets and tape measures are never exact. The dashed mark is what you asked for; further right is better.',
  take: 'Take this into a full job', take_named: 'Take this into a full job: {title}', taken: '{title}: from “Which sub?”',
  others: 'Others that fit ({n})', out: 'Why others fell out ({n})', picture: '{title}, drawn to scale in the car',
  outside_size: '{w} × {h} × {d}', hearing: 'Fix any box to the car so that it stays put in a crash. Wiring is work for a qualified person; local rules apply.',

  quick_title: 'Quick answer', quick_line: 'Type it as you would say it', quick_example: '10 sealed 25 l 500 w hatch', quick_chips: 'Understood',
  chip_change: '{say}: change it', chip_drop: 'Take out “{text}”', chip_unknown: '{text}?', chip_unknown_drop: '“{text}” was not understood. Take it out', chip_doubtful: 'perhaps', clear: 'Clear',
  quick_body: 'Car', quick_size: 'Sub', quick_type: 'Box', quick_power: 'Power', quick_count: 'How many', quick_net: 'Net litres',
  type_any: 'Whatever suits', size_value: '{n}″', size_spoken: '{n}-inch', watts: '{n} W', count_value: '× {n}',
  line_reach: 'Reach', line_port: 'Port', line_level: 'Peak level', line_outside: 'Box', line_load: 'Load', line_fits: '{Boot}',
  box_line: '{type}, {net} of air; {size} outside (wide, high, deep)',
  fits_yes: 'Usually fits', fits_no: 'Too big', open_full: 'Open as a full job', opened: 'From a quick answer', assumed_for: 'Assumed',
};

export const { say, sayOf } = phrases(WORDS);
