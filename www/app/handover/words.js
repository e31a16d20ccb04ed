// What the hand-over says, in one place: links, kept jobs, pictures and the
// job sheet. {boot} and {Boot} become the reader's own word; any other name in
// braces is filled in by the caller.

import { phrases } from '../phrases.js';

const WORDS = {
  menu_sheet: 'Job sheet…', menu_share: 'Share as a link…', menu_jobs: 'My jobs…', menu_svg: 'Save the drawing (SVG)', menu_png: 'Save the drawing (PNG)', menu_curves_svg: 'Save the level curves (SVG)', menu_curves_png: 'Save the level curves (PNG)',
  close: 'Close', cancel: 'Cancel',

  share_title: 'Share this job',
  share_lead: 'The whole job is in this link. It goes to whom you give it and to nobody else: what stands behind the # never leaves a browser.',
  share_label: 'Link', share_copy: 'Copy the link', share_copied: 'Copied.', share_send: 'Send…', share_select: 'Copying was refused. The link is selected: copy it by hand.',
  share_length: '{n} characters.', share_long: '{n} characters: some messengers cut links this long. A file is safer.',
  share_file: 'This page was opened from a disk, so the link opens for others only where they have the same file. Send the job as a file instead.',

  offer_title: 'A job came with this link',
  offer_lead: '“{title}”. Opening it keeps your own job as it is, under My jobs.',
  offer_open: 'Open it', offer_leave: 'Leave it', offer_refused: 'The link could not be opened: {why}', offer_opened: 'Opened {title}. The job you had is under My jobs.',
  untitled: 'Job without a name',

  jobs_title: 'My jobs', jobs_lead: 'Kept on this machine only.', jobs_none: 'Nothing is kept here yet.', jobs_memory: 'This browser keeps nothing between visits. Save jobs to files.',
  jobs_open: 'Open', jobs_now: 'Open now', jobs_rename: 'Name', jobs_copy: 'Duplicate', jobs_delete: 'Delete', jobs_deleted: '“{title}” was deleted.', jobs_undo: 'Bring it back',
  jobs_copied: 'Copy of {title}', jobs_saved: 'Kept {when}', jobs_failed: 'That did not work: {why}', jobs_opened: 'Opened {title}.',

  sheet_title: 'Job sheet', sheet_print: 'Print', sheet_back: 'Back to the job', sheet_for: 'For', sheet_customer: 'the customer', sheet_workshop: 'the workshop', sheet_both: 'both',
  sheet_demo: 'Demo: the car and the speakers are invented.', sheet_date: '{date}', sheet_trouble: 'Something in the job is wrong, so there is no sheet yet: {why}',
  sheet_run: 'Supply cable, battery to amplifier, one way', sheet_material: 'Panels of', mdf: 'MDF', birch_ply: 'Birch plywood', chipboard: 'Chipboard', osb: 'OSB',

  agreed: 'What was agreed', agreed_wish: 'Wished for', agreed_wish_value: '{level} dB down to {hz}, {seat}', agreed_boot: 'Of the {boot}', agreed_boot_value: 'up to {pct} %',
  promised: 'What to expect', sure: 'How sure', sure_value: '{reach}, level {least} to {most} dB, in eight cars of ten like this one', sure_reach: 'reach {low} to {high}', sure_below: 'reach below {hz}',
  response: 'Predicted level at full power, {seat}', response_band: 'The grey band holds eight of ten cars like this one.',
  system: 'The system', box: 'Box', box_outside: 'Outside, wide × high × deep', box_net: 'Net volume', box_port: 'Port', port_round: '{n} × {d} inside diameter, {l} long', port_slot: '{n} × {w} × {h}, {l} long', tuned: 'tuned to {hz}',
  driver: 'Driver', driver_many: '{n} × {name}', wiring: 'Wiring', wiring_one: 'one driver', wiring_value: '{series} in series, {parallel} in parallel', load_value: 'lowest load {ohm}', amplifier: 'Amplifier', amplifier_value: '{w} into {ohm}',
  doors: 'Door speakers',
  settings: 'Processor settings', channel: 'Channel', crossover: 'Crossover', delay: 'Delay', polarity: 'Polarity', level: 'Level', equaliser: 'Equaliser', none: 'none', normal: 'normal', inverted: 'inverted', sub_n: 'Sub {n}', sub: 'Sub', each_door: 'Each door',
  lowpass: 'low-pass', highpass: 'high-pass', slope: '{db} dB/octave', butterworth: 'Butterworth', linkwitz_riley: 'Linkwitz-Riley', bessel: 'Bessel', peak: 'peak', low_shelf: 'low shelf', high_shelf: 'high shelf', eq_value: '{kind} {hz}, {gain} dB, Q {q}',

  workshop: 'Workshop', cut_list: 'Cut list', panel: 'Panel', pieces: 'Pieces', size: 'Blank', bevel: 'Ends', square: 'square', bevel_value: '{a}° / {b}°', tapers: 'tapers, see drawing',
  cut_note: 'Sides cover the ends of the other panels; top and bottom cover front and back. Cut the driver’s hole to {hole}. Glue and screw every 100 to 150 mm, seal all inside edges, lay a closed gasket under the driver (common practice).',
  cut_hole_unknown: 'its own template', sheets: 'Sheets of 2440 × 1220 mm', sheets_value: '{n}, {waste} % left over', mass: 'Mass with driver', mass_value: '{kg} kg', in_boot: 'In the {boot}', through: 'Through the opening', supply: 'Supply', fix: 'Fixing', fix_forces: 'To hold {forward} forward, {side} sideways and {rear} rearward.',
  out: 'How it comes out again',
  out_text: 'Unlatch or unbolt the fixings, unplug at the amplifier, lift the box out with two people. Keep the plugs taped back and the fuse out while it is away. Put the bolts back so that they are not lost. Nothing of the car was cut unless it says so above.',
  care: 'Care', care_text: 'Check the fixings and the fuse holder after a week and then twice a year. A smell, a scrape or a buzz means turn it down and come back.',
  assumptions: 'What was assumed', assumptions_lead: 'Nobody measured or chose these values; they are usual ones. Measuring them makes the prediction surer.', assumptions_none: 'Nothing: every value was measured or chosen.', assumption_part: '{part}: {n} of {of} values',
  part_air: 'Air', part_car: 'Car', part_subs: 'Sub and box', part_doors: 'Door speakers', part_aim: 'Wishes', part_tolerance: 'Tolerances',
  cautions: 'Cautions', caution_wiring: 'Wiring and fusing are work for a qualified person. Disconnect the battery first, keep clear of air-bags and their wiring, and follow local rules and the vehicle maker’s instructions.',
  caution_box: 'A loose box can kill in a crash.',
};

export const { say } = phrases(WORDS);

/**
 * The words for a value of the document, or the value itself where there are none.
 * @param {string} value
 */
export function sayWord(value) {
  return Object.hasOwn(WORDS, value) ? say(/** @type {keyof typeof WORDS} */ (value)) : value;
}
