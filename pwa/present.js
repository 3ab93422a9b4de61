/** Puts together what the screens show: the state of the controller, the fit, drawings and papers with addresses. */
import { catalogue, state, today } from './controller.js';
import { doneSteps } from './logic/catalogue.js';
import { describe, stepOf } from './logic/fields.js';
import { fieldAt, toJob } from './logic/request.js';
import { doubtsAbout, tryFit } from './logic/trial.js';
import { dayText, itemLine, paperName } from './logic/view.js';
import * as share from './ports/share.js';

/** Signatures being drawn, by quote. */
const signatures = new Map();

/** Addresses handed to the page, one for each thing shown; the older ones of the same name are released. */
const addresses = new Map();

function addressFor(name, thing, make) {
  const kept = addresses.get(name);
  if (kept?.thing === thing) return kept.address;
  share.release(kept?.address);
  const address = make(thing);
  addresses.set(name, { thing, address });
  return address;
}

export const signatureFor = (id) => {
  if (!signatures.has(id)) signatures.set(id, { strokes: [], name: '', place: '' });
  return signatures.get(id);
};

const byOrder = (a, b) => b.order - a.order;
const quotesOf = (id) => [...state.quotes.values()].filter((one) => one.draft === id).sort(byOrder);
const pendingOf = (id) => [...state.outbox.values()].filter((one) => one.draft === id).sort(byOrder)[0] ?? null;

const withoutDate = (body) => JSON.stringify({ ...body, date: '', mends: undefined });

function oldBecause(record, draft, shop) {
  if (!record) return '';
  const { answer } = record;
  const { body, faults } = toJob(draft, catalogue(), record.body.date);
  if (faults.length || withoutDate(body) !== withoutDate(record.body))
    return 'The job has changed since this price. Ask for the price again.';
  if (answer.valid_until < today())
    return `This quote was valid until ${dayText(answer.valid_until)}. Ask for the price again.`;
  const [then, now] = [answer.versions?.prices, shop?.versions?.prices];
  return then && now && then !== now
    ? `The shop’s prices are from ${now} now; this quote was made with those from ${then}.`
    : '';
}

function paperOf(record) {
  if (!record?.paper) return null;
  const name = paperName(record.answer);
  return {
    name,
    signed: record.signed,
    bytes: record.paper,
    canShare: share.canShare(record.paper, name),
    address: addressFor(`paper ${record.id}`, record.paper, share.addressOf),
  };
}

function drawingsOf(record) {
  return (record?.drawings ?? [])
    .map(
      (svg, index) =>
        svg && {
          name: itemLine(record.answer.items[index]),
          address: addressFor(`drawing ${record.id} ${index}`, svg, share.addressOfDrawing),
        },
    )
    .filter(Boolean);
}

/** What the list of jobs shows. */
export function jobsView() {
  return {
    drafts: [...state.drafts.values()].sort((a, b) => b.changed - a.changed),
    catalogue: catalogue(),
    settings: state.settings,
    latestQuote: (id) => quotesOf(id)[0] ?? null,
    pendingOf,
  };
}

/** What one step of the open job shows. `picture` is the drawing of the piece being chosen. */
export function jobView(step, picture) {
  const draft = state.current;
  const quotes = quotesOf(draft.id);
  const quote = quotes.find((one) => one.id === state.shown) ?? quotes[0] ?? null;
  const shop = catalogue();
  const linkTo = (id, path) => `#/job/${draft.id}/${id}${path ? `/${path}` : ''}`;
  const describePath = (path) => path && { path, step: stepOf(path), label: describe(path, draft, shop).label };
  const fitted = step === 'piece' ? tryFit(draft, draft.item, shop) : {};
  return {
    draft,
    step,
    catalogue: shop,
    status: state.status,
    faults: state.faults,
    refusals: state.refusals,
    linkTo,
    done: doneSteps(draft, quotes, toJob(draft, shop, '').faults),
    quotes,
    quote,
    quoteIsOld: oldBecause(quote, draft, shop.shop),
    pending: pendingOf(draft.id),
    fieldAt: (pending, pointer) => describePath(fieldAt(toJob(draft, shop, pending.body.date).where, pointer)),
    doubts: step === 'space' ? doubtsAbout(draft, shop) : [],
    trial: fitted.trial,
    trialWants: fitted.wants,
    signature: quote && signatureFor(quote.id),
    signFault: state.signFault,
    paper: paperOf(quote),
    paperFault:
      state.paperFault || (quote && !quote.paper && !state.status.sending ? 'The paper is not made yet.' : ''),
    drawings: drawingsOf(quote),
    drawing: picture && { ...picture, address: addressFor('picture', picture.svg, share.addressOfDrawing) },
  };
}
