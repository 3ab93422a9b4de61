/**
 * Asking the service for prices and papers. A request is kept in the outbox before it is sent, so that it
 * survives a dead battery and is answered once.
 */
import { announce, catalogue, keepSettings, newId, reach, state, today } from './controller.js';
import { afterFailure, due, entry } from './logic/outbox.js';
import { toJob } from './logic/request.js';
import { forPaper, stopsOf } from './logic/view.js';
import * as api from './ports/api.js';
import * as storage from './ports/storage.js';

/** The problem of a refusal, put at the fields it names. */
function parked(one, after) {
  state.outbox.set(one.id, after);
  return storage.keep('outbox', one.id, after);
}

async function sendOne(one) {
  try {
    const answer = await reach(() => api.quote(one.body));
    state.status.needsKey = false;
    const record = {
      id: one.id,
      draft: one.draft,
      order: one.order,
      body: one.body,
      answer,
      at: Date.now(),
      drawings: [],
      paper: null,
      signed: '',
    };
    state.quotes.set(one.id, record);
    await storage.keep('quotes', one.id, record);
    // One that was set aside while it was on its way is kept, but is not what the person looks at.
    if (state.outbox.delete(one.id)) state.shown = one.id;
    await storage.drop('outbox', one.id);
    announce('quote');
    await finishQuote(record);
    return true;
  } catch (failure) {
    if (!failure.kind) throw failure;
    await parked(one, afterFailure(one, failure, Date.now()));
    return failure.kind !== 'offline';
  }
}

/** Drawings and the unsigned paper, fetched at once so that they open later without signal. */
async function finishQuote(record) {
  for (const item of record.body.items) {
    try {
      record.drawings.push(await reach(() => api.drawing({ item, units: record.body.units, view: 'isometric' })));
    } catch {
      record.drawings.push('');
    }
  }
  await storage.keep('quotes', record.id, record);
  if (!stopsOf(record.answer).length) await makePaper(record, null);
  announce('quote');
}

export async function makePaper(record, signature) {
  state.paperFault = '';
  try {
    const quote = forPaper(record.answer);
    const body = signature ? { quote, signature } : { quote };
    record.paper = await reach(() => api.paper(body));
    record.signed = signature?.name || (signature ? 'hand' : '');
    await storage.keep('quotes', record.id, record);
  } catch (failure) {
    state.paperFault =
      failure.kind === 'refused'
        ? [failure.problem.title, failure.problem.detail].join(': ')
        : 'The paper needs signal. The quote itself is kept.';
  }
  announce('quote');
}

async function drainOnce() {
  const tried = new Set();
  const next = () => due([...state.outbox.values()], Date.now()).find((one) => !tried.has(one.id));
  if (!next()) return;
  state.status.sending = true;
  announce('quote');
  for (let one = next(); one; one = next()) {
    tried.add(one.id);
    if (!(await sendOne(one))) break;
  }
  state.status.sending = false;
  announce('quote');
}

let draining = null;

/** Send what waits, oldest first. One drainer at a time, also over two tabs. */
export function drain() {
  const alone = () =>
    navigator.locks
      ? navigator.locks.request('outbox', { ifAvailable: true }, (lock) => lock && drainOnce())
      : drainOnce();
  draining ??= Promise.resolve(alone()).finally(() => {
    draining = null;
    state.status.sending = false;
  });
  return draining;
}

/** Ask for the price of the open job; with `mends` for several changes that mend each thing wrong with it, not one. */
export async function askPrice({ mends = false } = {}) {
  const draft = state.current;
  const { body, faults } = toJob(draft, catalogue(), today());
  state.faults = faults;
  state.refusals = {};
  if (faults.length) return announce('faults');
  await dropRequestsOf(draft);
  await keepSettings({ order: state.settings.order + 1 });
  const one = entry(newId(), state.settings.order, draft.id, mends ? { ...body, mends } : body);
  state.outbox.set(one.id, one);
  await storage.keep('outbox', one.id, one);
  announce('quote');
  if (state.settings.kept === null) keepSettings({ kept: await storage.askToKeep() });
  return drain();
}

export async function dropRequest(id) {
  state.outbox.delete(id);
  await storage.drop('outbox', id);
  announce('quote');
}

/** Nothing of this job is asked any more. */
export async function dropRequestsOf(draft) {
  for (const old of [...state.outbox.values()].filter((one) => one.draft === draft.id)) await dropRequest(old.id);
}
