/**
 * The state of the app: jobs on this phone, what the shop offers, what waits. A change is saved at once and
 * announced; verbs.js says what each verb of the screen changes, asking.js asks the service.
 */
import { newDraft } from './logic/draft.js';
import { makeCatalogue } from './logic/catalogue.js';
import { waiting } from './logic/outbox.js';
import * as api from './ports/api.js';
import * as storage from './ports/storage.js';

export const state = {
  drafts: new Map(),
  quotes: new Map(),
  outbox: new Map(),
  settings: { counter: 0, order: 0, open: '', key: '', units: '', kept: null },
  shop: null,
  templates: [],
  byKey: new Map(),
  status: {
    saving: false,
    unsaved: '',
    offline: false,
    sending: false,
    waiting: 0,
    demonstration: false,
    newVersion: false,
    needsKey: false,
  },
  current: null,
  faults: [],
  refusals: {},
  shown: '',
  paperFault: '',
  signFault: '',
  picture: null,
  look: 'isometric',
};

const listeners = new Set();
const dirty = new Set();
let writing = null;

// A write that takes longer is said; a quick one would only chatter in a screen reader's ear.
const SLOW_MS = 250;

/** Listen to changes: `what` is "status", "draft", "catalogue" or "quote". */
export function onChange(listener) {
  listeners.add(listener);
}

export function announce(what) {
  state.status.waiting = waiting([...state.outbox.values()]);
  for (const listener of listeners) listener(what);
}

export const catalogue = () =>
  makeCatalogue(state.shop, state.templates, state.byKey, state.current?.units ?? state.settings.units ?? 'in');

/** "2026-05-02" by the phone's own calendar. */
export function today() {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
}

export function newId() {
  return [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

// --- saving -----------------------------------------------------------------------------------------

async function writeDirty() {
  const slow = setTimeout(() => {
    state.status.saving = true;
    announce('status');
  }, SLOW_MS);
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
    await Promise.all(
      templates.flatMap(({ id }) =>
        ['in', 'mm'].map(async (units) => {
          state.byKey.set(`${id} ${units}`, await reach(() => api.template(id, units)));
        }),
      ),
    );
  } catch {
    /* without signal and before the first visit: the form works, the list comes later */
  }
  announce('catalogue');
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
export const remember = (open) => {
  if (state.settings.open !== open) keepSettings({ open });
};

/** Read everything kept on this phone. */
export async function start() {
  const [drafts, quotes, outbox, settings] = await Promise.all([
    storage.all('drafts'),
    storage.all('quotes'),
    storage.all('outbox'),
    storage.get('settings', 'settings'),
  ]);
  for (const one of drafts) state.drafts.set(one.id, one);
  for (const one of quotes) state.quotes.set(one.id, one);
  for (const one of outbox) state.outbox.set(one.id, one);
  Object.assign(state.settings, settings);
  api.useKey(state.settings.key);
  announce('draft');
}
