/** What each verb from the screen does. A verb that can be undone gives back {undo}. */
import { askPrice, drain, dropRequest, dropRequestsOf, makePaper } from './asking.js';
import { announce, catalogue, keepSettings, loadCatalogue, reach, save, state } from './controller.js';
import { addLine, insertLine, put, removeLine, switchUnits } from './logic/draft.js';
import { hiddenSizes } from './logic/holding.js';
import { takeInto, typedLength } from './logic/mends.js';
import { toItem } from './logic/request.js';
import { momentText } from './logic/view.js';
import * as api from './ports/api.js';
import * as storage from './ports/storage.js';

const withoutUnit = (text, units) => text.replace(new RegExp(` ${units}$`), '');

function changed(draft = state.current) {
  save(draft);
  announce('draft');
}

function fillSizes(item, sizes) {
  const template = catalogue().template(item.template);
  const usual = Object.fromEntries(
    (template?.dimensions ?? []).map((rule) => [rule.name, withoutUnit(rule.default.text, state.current.units)]),
  );
  item.dimensions = { ...usual, ...sizes };
}

/** Another template: the sizes typed for the former one are kept with the item and come back with it. */
function chooseTemplate(item, template) {
  item.former ??= {};
  if (item.template) item.former[item.template] = { dimensions: item.dimensions, choices: item.choices };
  item.template = template;
  fillSizes(item, item.former[template]?.dimensions ?? {});
  item.choices = item.former[template]?.choices ?? {};
}

function replaceSizes(said, change) {
  const draft = state.current;
  const item = draft.items[draft.item];
  const before = { ...item.dimensions };
  change(draft, item);
  changed();
  return {
    said,
    undo: () => {
      item.dimensions = before;
      changed(draft);
    },
  };
}

function takeSizes({ sizes }) {
  return replaceSizes('Size taken.', (draft, item) => {
    for (const [name, size] of Object.entries(sizes)) item.dimensions[name] = typedLength(size, draft.units);
  });
}

/** The usual sizes for those in sight; what was typed into the others stays. */
function usualSizes() {
  return replaceSizes('The usual sizes.', (draft, item) => {
    const hidden = hiddenSizes(draft, draft.item, catalogue());
    fillSizes(item, Object.fromEntries(Object.entries(item.dimensions).filter(([name]) => hidden.has(name))));
  });
}

/** Undone, the price it was offered with holds again, and the one asked since is not waited for. */
function takeMend({ at, mend, quote }) {
  const draft = state.current;
  const putBack = takeInto(draft, at, mend);
  changed();
  askPrice();
  return {
    said: 'Change taken.',
    undo: async () => {
      putBack();
      state.shown = quote;
      changed(draft);
      await dropRequestsOf(draft);
    },
  };
}

function type({ path, value }) {
  const draft = state.current;
  if (path === 'units') {
    switchUnits(draft, value);
    keepSettings({ units: value });
  } else if (/^items\.\d+\.template$/.test(path)) chooseTemplate(draft.items[path.split('.')[1]], value);
  else put(draft, path, value);
  save();
}

function takeOut({ list, index }) {
  const draft = state.current;
  const line = removeLine(draft, list, index);
  if (list === 'items') draft.item = Math.min(draft.item, draft.items.length - 1);
  changed();
  return {
    said: 'Removed.',
    undo: () => {
      insertLine(draft, list, index, line);
      changed(draft);
    },
  };
}

function deleteJob({ id }) {
  const draft = state.drafts.get(id);
  const mark = (when) => {
    draft.deleted = when;
    changed(draft);
  };
  mark(Date.now());
  return { said: 'Job deleted.', undo: () => mark(0) };
}

let asked = 0;
let wait = 0;

/** The drawing of the piece as it is now; the latest question wins, an earlier answer is dropped. */
async function fetchPicture() {
  const draft = state.current;
  if (!draft) return;
  const { body, faults } = toItem(draft, draft.item, catalogue());
  if (!body.template || faults.length) return;
  const seen = state.look;
  const key = JSON.stringify([body, draft.units, seen]);
  if (state.picture?.key === key) return;
  const mine = ++asked;
  try {
    const looked = seen === 'opened' ? { view: 'isometric', opened: true } : { view: seen };
    const svg = await reach(() => api.drawing({ item: { ...body, quantity: 1 }, units: draft.units, ...looked }));
    if (mine !== asked) return;
    state.picture = {
      key,
      svg,
      view: seen,
      name: catalogue().nameOf(body.template),
      item: `${draft.id} ${draft.item} ${body.template}`,
    };
    announce('picture');
  } catch {
    announce('status');
  }
}

/** Ask for the drawing once the typing has paused. */
export function pictureSoon(delay = 500) {
  clearTimeout(wait);
  wait = setTimeout(fetchPicture, delay);
}

async function signQuote({ quote, signature }) {
  state.signFault = signature.name.trim() ? '' : 'Type the name of the person signing: it stands under the signature.';
  if (state.signFault) return announce('quote');
  const { strokes, name, place } = signature;
  return makePaper(quote, {
    strokes,
    name: name.trim(),
    place: place.trim(),
    time: momentText(new Date()),
  });
}

/** All jobs and quotes as one text, for a file. */
export const exportJobs = () =>
  JSON.stringify({
    made_by: 'yardwright',
    version: 1,
    drafts: [...state.drafts.values()],
    quotes: [...state.quotes.values()].map((one) => ({ ...one, paper: null })),
  });

/** Jobs from such a file; what is newer on the phone stays. Returns how many came in. */
export async function importJobs(text) {
  const { drafts = [], quotes = [] } = JSON.parse(text);
  const good = drafts.filter(
    (one) => typeof one?.id === 'string' && one.site?.readings && Array.isArray(one.items) && one.customer,
  );
  const fresh = good.filter((one) => !(state.drafts.get(one.id)?.changed >= one.changed));
  for (const one of fresh) {
    state.drafts.set(one.id, one);
    await storage.keep('drafts', one.id, one);
  }
  for (const one of quotes) {
    if (typeof one?.id !== 'string' || !one.answer?.price || state.quotes.has(one.id)) continue;
    state.quotes.set(one.id, one);
    await storage.keep('quotes', one.id, one);
  }
  announce('draft');
  return fresh.length;
}

export const VERBS = {
  type,
  'add-line': ({ list }) => {
    addLine(state.current, list);
    changed();
  },
  'remove-line': takeOut,
  'add-item': () => {
    state.current.item = addLine(state.current, 'items');
    changed();
  },
  'pick-item': ({ index }) => {
    state.current.item = index;
    changed();
    pictureSoon(0);
  },
  'take-sizes': takeSizes,
  'usual-sizes': usualSizes,
  look: ({ view }) => {
    state.look = view;
    pictureSoon(0);
  },
  price: () => askPrice(),
  'look-for-mends': () => askPrice({ mends: true }),
  'take-mend': takeMend,
  override: ({ key, what, to }) => {
    Object.assign((state.current.overrides[key] ??= { reason: '' }), { what, to });
    save();
    return askPrice();
  },
  send: drain,
  'drop-request': ({ id }) => dropRequest(id),
  'show-quote': ({ id }) => {
    state.shown = id;
    announce('quote');
  },
  sign: signQuote,
  'make-paper': ({ quote }) => makePaper(quote, null),
  'delete-job': deleteJob,
  'restore-job': ({ id }) => {
    state.drafts.get(id).deleted = 0;
    changed(state.drafts.get(id));
  },
  'keep-key': async ({ key }) => {
    await keepSettings({ key });
    api.useKey(key);
    for (const one of state.outbox.values()) if (one.parked?.status === 401) one.parked = null;
    await loadCatalogue();
    drain();
    return { said: key ? 'Key kept.' : 'Key taken out.' };
  },
};
