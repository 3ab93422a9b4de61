/**
 * What happens when: verbs from the screen change the draft, save it at once, and announce it. Asking the
 * service goes through the outbox, so that a request survives a dead battery and is answered once.
 */
import { newDraft } from './logic/draft.js';
import { makeCatalogue } from './logic/catalogue.js';
import { afterFailure, due, entry, waiting } from './logic/outbox.js';
import { toJob } from './logic/request.js';
import { forPaper, stopsOf } from './logic/view.js';
import * as api from './ports/api.js';
import * as storage from './ports/storage.js';

export const state = {
  drafts: new Map(), quotes: new Map(), outbox: new Map(), settings: { counter: 0, order: 0, open: '', key: '', units: '', kept: null },
  shop: null, templates: [], byKey: new Map(),
  status: { saving: false, unsaved: '', offline: false, sending: false, waiting: 0, demonstration: false, newVersion: false, needsKey: false },
  current: null, faults: [], refusals: {}, shown: '', paperFault: '', signFault: '', picture: null, look: 'isometric',
};

const listeners = new Set();
const dirty = new Set();
let writing = null;

// A write that takes longer is said; a quick one would only chatter in a screen reader's ear.
const SLOW_MS = 250;

/** Listen to changes: `what` is "status", "draft", "catalogue" or "quote". */
export function onChange(listener) { listeners.add(listener); }

export function announce(what) {
  state.status.waiting = waiting([...state.outbox.values()]);
  for (const listener of listeners) listener(what);
}

export const catalogue = () => makeCatalogue(state.shop, state.templates, state.byKey, state.current?.units ?? state.settings.units ?? 'in');

/** "2026-05-02" by the phone's own calendar. */
export function today() {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
}

function newId() {
  return [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

// --- saving -----------------------------------------------------------------------------------------

async function writeDirty() {
  const slow = setTimeout(() => { state.status.saving = true; announce('status'); }, SLOW_MS);
  try {
    while (dirty.size) {
      const [id] = dirty;
      dirty.delete(id);
      try {
        await storage.keep('drafts', id, state.drafts.get(id));
      } catch (error) {
        dirty.add(id);
        throw error;
      }
    }
    state.status.unsaved = '';
  } catch (error) {
    state.status.unsaved = `${error?.message ?? error}.`;
  }
  clearTimeout(slow);
  state.status.saving = false;
  writing = null;
  announce('status');
}

/** Write what is new now; one write at a time, and none waits for a pause in the typing. */
export function flush() {
  if (dirty.size) writing ??= writeDirty();
  return writing ?? Promise.resolve();
}

export function save(draft = state.current) {
  draft.changed = Date.now();
  dirty.add(draft.id);
  flush();
}

export async function keepSettings(changes) {
  Object.assign(state.settings, changes);
  await storage.keep('settings', 'settings', { ...state.settings });
}

// --- what the shop offers ---------------------------------------------------------------------------

export async function reach(ask) {
  try {
    const answer = await ask();
    state.status.offline = false;
    return answer;
  } catch (failure) {
    if (failure.kind === 'offline') state.status.offline = true;
    if (failure.problem?.status === 401) state.status.needsKey = true;
    throw failure;
  }
}

/** Fetch shop and templates; without signal the worker answers with what it kept. */
export async function loadCatalogue() {
  try {
    const [shop, templates] = await Promise.all([reach(api.shop), reach(api.templates)]);
    Object.assign(state, { shop, templates });
    state.status.demonstration = Boolean(shop.demonstration);
    if (!state.settings.units) state.settings.units = shop.units;
    announce('catalogue');
    await Promise.all(templates.flatMap(({ id }) => ['in', 'mm'].map(async (units) => {
      state.byKey.set(`${id} ${units}`, await reach(() => api.template(id, units)));
    })));
  } catch { /* without signal and before the first visit: the form works, the list comes later */ }
  announce('catalogue');
}

// --- asking for a price -----------------------------------------------------------------------------

/** The problem of a refusal, put at the fields it names. */
function parked(one, after) {
  state.outbox.set(one.id, after);
  return storage.keep('outbox', one.id, after);
}

async function sendOne(one) {
  try {
    const answer = await reach(() => api.quote(one.body));
    state.status.needsKey = false;
    const record = { id: one.id, draft: one.draft, order: one.order, body: one.body, answer, at: Date.now(), drawings: [], paper: null, signed: '' };
    state.quotes.set(one.id, record);
    await storage.keep('quotes', one.id, record);
    state.outbox.delete(one.id);
    await storage.drop('outbox', one.id);
    state.shown = one.id;
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
    state.paperFault = failure.kind === 'refused' ? [failure.problem.title, failure.problem.detail].join(': ') : 'The paper needs signal. The quote itself is kept.';
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
    if (!await sendOne(one)) break;
  }
  state.status.sending = false;
  announce('quote');
}

let draining = null;

/** Send what waits, oldest first. One drainer at a time, also over two tabs. */
export function drain() {
  const alone = () => (navigator.locks ? navigator.locks.request('outbox', { ifAvailable: true }, (lock) => lock && drainOnce()) : drainOnce());
  draining ??= Promise.resolve(alone()).finally(() => { draining = null; state.status.sending = false; });
  return draining;
}

export async function askPrice() {
  const draft = state.current;
  const { body, faults } = toJob(draft, catalogue(), today());
  state.faults = faults;
  state.refusals = {};
  if (faults.length) return announce('faults');
  for (const old of [...state.outbox.values()].filter((one) => one.draft === draft.id)) await dropRequest(old.id);
  await keepSettings({ order: state.settings.order + 1 });
  const one = entry(newId(), state.settings.order, draft.id, body);
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

// --- jobs -------------------------------------------------------------------------------------------

/** Start a new job and give its id back. */
export async function newJob() {
  await keepSettings({ counter: state.settings.counter + 1 });
  const draft = newDraft(newId(), state.settings.counter, state.settings.units || 'in', Date.now());
  state.drafts.set(draft.id, draft);
  save(draft);
  announce('draft');
  return draft.id;
}

/** Show a job, or the list of jobs with "". */
export function openJob(id) {
  const draft = state.drafts.get(id) ?? null;
  if (draft === state.current) return;
  Object.assign(state, { current: draft, faults: [], refusals: {}, shown: '', paperFault: '' });
  announce('draft');
}

/** Remember where the person was, to come back there after a kill. */
export const remember = (open) => { if (state.settings.open !== open) keepSettings({ open }); };

/** Read everything kept on this phone. */
export async function start() {
  const [drafts, quotes, outbox, settings] = await Promise.all([storage.all('drafts'), storage.all('quotes'), storage.all('outbox'), storage.get('settings', 'settings')]);
  for (const one of drafts) state.drafts.set(one.id, one);
  for (const one of quotes) state.quotes.set(one.id, one);
  for (const one of outbox) state.outbox.set(one.id, one);
  Object.assign(state.settings, settings);
  api.useKey(state.settings.key);
  announce('draft');
}
