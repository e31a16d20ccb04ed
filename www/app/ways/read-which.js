// The engine's answer to "which sub", brought into the shape the page shows.

/** @typedef {import('./replies.js').WhichReply} WhichReply */
/** @typedef {import('./replies.js').Choice} Choice */
/** @typedef {import('./replies.js').EngineChoice} EngineChoice */
/** @typedef {import('./replies.js').EngineWhich} EngineWhich */

/**
 * @param {EngineWhich} reply
 * @returns {WhichReply}
 */
export function readWhich(reply) {
  const choice = (/** @type {EngineChoice} */ c) => readChoice(c, reply);
  return {
    findings: reply.findings ?? [],
    assumed: reply.assumed ?? [],
    asked: { lowest_hz: reply.lowest_hz, level_db: reply.level_db, say: reply.asked },
    space_l: reply.space_l,
    boot_l: reply.boot_l,
    choices: (reply.choices ?? []).map(choice),
    others: (reply.others ?? []).map(choice),
    out: reply.out ?? [],
  };
}

/**
 * A choice whose job was not worked out to the end is the common job with its
 * title and its sub.
 * @param {EngineChoice} c
 * @param {EngineWhich} reply
 * @returns {Choice}
 */
function readChoice(c, reply) {
  const { band } = c;
  return {
    ...c,
    picked_for: c.picked_for ?? [],
    job: c.job ?? { ...reply.job, title: c.title, subs: [c.sub] },
    band: band && {
      reach_hz: { low: band.reach_low_hz, high: band.reach_high_hz },
      level_db: { low: band.level_low_db, high: band.level_high_db },
      say: band.say,
    },
  };
}
