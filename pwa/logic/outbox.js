/**
 * What still has to be sent, in which order, and when to try again. Entries are numbered by a counter,
 * not by the clock (phones' clocks are wrong). An entry is {id, order, draft, body, tries, parked, notBefore}.
 */

const FIRST_WAIT_MS = 5_000;
const LONGEST_WAIT_MS = 300_000;

/** A new entry. `id` is made on the phone: the answer is kept under it, so a repeat changes nothing. */
export function entry(id, order, draftId, body) {
  return { id, order, draft: draftId, body, tries: 0, parked: null, notBefore: 0 };
}

/** Entries to send now, oldest first. Parked ones wait for a person. */
export function due(entries, now) {
  return entries.filter((one) => !one.parked && one.notBefore <= now).sort((a, b) => a.order - b.order);
}

/** How many wait for the network (parked ones are shown at their job instead). */
export function waiting(entries) {
  return entries.filter((one) => !one.parked).length;
}

/**
 * What to do with a failed try. `failure.kind`: "offline" (no answer), "busy" (429, 5xx: the service may
 * answer later, `failure.waitSeconds` if it said when) or "refused" (a person must change something).
 */
export function afterFailure(one, failure, now) {
  if (failure.kind === 'refused') return { ...one, tries: one.tries + 1, parked: failure.problem };
  if (failure.kind === 'offline') return { ...one, tries: one.tries + 1, notBefore: 0 };
  const backOff = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(one.tries, 10));
  return {
    ...one,
    tries: one.tries + 1,
    notBefore: now + (failure.waitSeconds ? failure.waitSeconds * 1000 : backOff),
  };
}
