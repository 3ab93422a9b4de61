/**
 * Step 5: the price. The customer may be looking: costs are never shown unless the shop asks for them here.
 * Stops come first and are never folded away.
 */
import {
  buyRows,
  choiceLines,
  dayText,
  hasShopSide,
  itemLine,
  money,
  priceRows,
  shopFindings,
  shopRows,
} from '../logic/view.js';
import { button, fold, h, redraw, sheet } from './dom.js';
import { finding, findings, stops } from './findings.js';
import { drawPaper } from './paper.js';

function faultsBox(view) {
  if (!view.faults.length) return null;
  return h(
    'div',
    { class: 'sheet faults-box', id: 'faults', tabindex: '-1' },
    h(
      'h2',
      {},
      view.faults.length === 1
        ? 'One thing is missing before a price'
        : `${view.faults.length} things are missing before a price`,
    ),
    h(
      'ul',
      { class: 'faults' },
      view.faults.map((one) => h('li', {}, h('a', { href: view.linkTo(one.step, one.path) }, one.detail))),
    ),
  );
}

function waitingBox(view) {
  const { pending } = view;
  // That changes are looked for is said where it was asked.
  if (!pending || (pending.body.mends && view.quote && view.status.sending)) return null;
  if (pending.parked) {
    return h(
      'div',
      { class: 'sheet faults-box' },
      h('h2', {}, pending.parked.title),
      h('p', {}, pending.parked.detail),
      h(
        'ul',
        { class: 'faults' },
        pending.parked.errors.map((one) => {
          const path = view.fieldAt(pending, one.pointer);
          return h(
            'li',
            {},
            path ? h('a', { href: view.linkTo(path.step, path.path) }, `${path.label}: ${one.detail}`) : one.detail,
          );
        }),
      ),
      h('p', {}, 'Nothing was lost. Put it right and ask for the price again.'),
      button('Set this request aside', 'drop-request', { id: pending.id }),
    );
  }
  const busy = pending.notBefore > 0;
  const title = view.status.sending ? 'Asking for the price' : busy ? 'The service is busy' : 'Waiting for signal';
  const told = view.status.sending
    ? 'This takes a few seconds.'
    : `The request is kept on this phone and goes out by itself ${busy ? 'a little later' : 'as soon as there is signal'}. You may close the app.`;
  return h(
    'div',
    { class: 'sheet' },
    h('h2', {}, title),
    h('p', {}, told),
    !view.status.sending &&
      h('div', { class: 'row' }, button('Try now', 'send'), button('Do not send', 'drop-request', { id: pending.id })),
  );
}

function table(caption, rows) {
  return h(
    'table',
    {},
    h('caption', {}, caption),
    h(
      'tbody',
      {},
      rows.map((row) =>
        h(
          'tr',
          { class: row.strong ? 'strong' : row.sum ? 'sum' : null },
          h('th', { scope: 'row' }, row.text, row.quantity && h('div', { class: 'small' }, row.quantity)),
          h('td', { class: 'figure' }, row.amount),
        ),
      ),
    ),
  );
}

function drawings(view) {
  return view.drawings.map((one) =>
    h(
      'figure',
      { class: 'sheet' },
      h('img', { class: 'drawing', src: one.address, alt: `Drawing of the ${one.name}` }),
    ),
  );
}

/** Each figure with the rule it follows, the numbers put in and where the rule comes from. */
function working(rows) {
  const told = (one) => [one.rule, one.numbers, one.source && `Source: ${one.source}`].filter(Boolean).join('. ');
  return h(
    'ul',
    { class: 'clearances' },
    rows.map((one) => h('li', {}, h('b', {}, `${one.what}: ${one.result}`), h('div', { class: 'small' }, told(one)))),
  );
}

function shopSide(view, quote) {
  if (!hasShopSide(quote)) return null;
  return h(
    'div',
    { class: 'sheet noprint' },
    fold(
      'shop-side',
      'Shop’s side: costs and margin',
      'for the shop only',
      table('How the price is made up', shopRows(quote)),
      table('What to buy', buyRows(quote)),
      shopFindings(quote).map((one) => finding(view, one)),
      quote.shop_working?.length > 0 &&
        fold('shop-working', 'How the shop’s figures arose', '', working(quote.shop_working)),
      h(
        'p',
        {},
        `Hours ${quote.labour.hours}, in ${quote.labour.elapsed_days} day${quote.labour.elapsed_days === 1 ? '' : 's'}.`,
      ),
    ),
  );
}

function itemPart(item) {
  const included = (item.included ?? []).map((line) => h('li', {}, line));
  return h(
    'div',
    {},
    h('h2', {}, itemLine(item)),
    h('p', { class: 'small' }, choiceLines(item).join('. ')),
    h('ul', { class: 'plain-list' }, included),
  );
}

function priceSheet(answer) {
  const who = answer.customer?.name || 'a customer not named yet';
  return sheet(
    '',
    answer.demonstration && h('p', { class: 'finding caution' }, h('b', {}, 'DEMONSTRATION PRICES')),
    h('p', { class: 'total' }, money(answer.price.total, answer.price.currency)),
    h(
      'p',
      {},
      `${answer.shop?.name ?? ''} for ${who}. Quote ${answer.reference}, valid until ${dayText(answer.valid_until)}.`,
    ),
    answer.items.map(itemPart),
    table('Price', priceRows(answer)),
  );
}

function quoteSheet(view) {
  const { answer } = view.quote;
  const lines = [...(answer.terms ?? []), ...(answer.cautions ?? [])].map((line) => h('p', {}, line));
  return h(
    'div',
    { class: 'stack', id: 'quote', tabindex: '-1', 'aria-label': 'The quote', role: 'region' },
    view.quoteIsOld && h('div', { class: 'finding caution' }, h('p', {}, view.quoteIsOld)),
    stops(view, answer),
    h(
      'div',
      { class: 'two' },
      h('div', { class: 'stack' }, priceSheet(answer), drawPaper(view)),
      h(
        'div',
        { class: 'stack' },
        drawings(view),
        findings(view, answer),
        shopSide(view, answer),
        sheet(
          '',
          fold('terms', 'Terms and cautions', '', lines),
          answer.working?.length > 0 && fold('working', 'How the figures arose', '', working(answer.working)),
        ),
      ),
    ),
  );
}

function earlier(view) {
  if (view.quotes.length < 2) return null;
  return h(
    'div',
    { class: 'sheet' },
    fold(
      'earlier',
      'Earlier quotes of this job',
      `${view.quotes.length}`,
      view.quotes.map((one) =>
        button(
          `${dayText(one.answer.date)}, ${money(one.answer.price.total, one.answer.price.currency)}`,
          'show-quote',
          { id: one.id },
          { class: 'wide', 'aria-pressed': String(one.id === view.quote?.id) },
        ),
      ),
    ),
  );
}

/** Draw the step. */
export function drawPrice(root, view) {
  const asked = view.quote ? 'Ask for the price again' : 'Get the price';
  redraw(
    root,
    h('h1', { id: 'step-title', tabindex: '-1' }, 'Price and paper'),
    faultsBox(view),
    waitingBox(view),
    !(view.pending && !view.pending.parked) &&
      button(
        asked,
        'price',
        {},
        { id: 'get-price', class: view.quote && !view.quoteIsOld ? 'wide noprint' : 'primary wide noprint' },
      ),
    view.quote && quoteSheet(view),
    earlier(view),
  );
}
