/** From a quote as answered to what is shown: rows of text. No figure is computed here, only laid out. */

const LEVELS = {
  stop: { word: 'Stop', order: 0 },
  caution: { word: 'Caution', order: 1 },
  'not checked': { word: 'Not checked', order: 2 },
  note: { word: 'Note', order: 3 },
  ok: { word: 'Checked', order: 4 },
};

export const levelWord = (level) => LEVELS[level]?.word ?? level;

/** "1234.50" in the currency of the quote, the way the phone's language writes it. */
export function money(amount, currency) {
  const figure = Number(amount);
  if (!Number.isFinite(figure)) return `${amount} ${currency}`;
  try {
    return new Intl.NumberFormat(undefined, { style: 'currency', currency }).format(figure);
  } catch {
    return `${amount} ${currency}`;
  }
}

const nonZero = (text) => Number(text) !== 0;

/** The customer's lines: [{text, amount, strong}]. */
export function priceRows(quote) {
  const { price } = quote;
  const say = (amount) => money(amount, price.currency);
  const rows = price.lines.map((line) => ({
    text: line.text,
    quantity: quantityOf(line, say),
    amount: say(line.amount),
  }));
  if (price.tax.some((tax) => !tax.included && nonZero(tax.amount)))
    rows.push({ text: 'Before tax', amount: say(price.net), sum: true });
  for (const tax of price.tax) {
    const rate = `${Number((Number(tax.rate) * 100).toFixed(4))} %`;
    rows.push({
      text: tax.included ? `${tax.name} ${rate}, included` : `${tax.name} ${rate}`,
      amount: say(tax.amount),
    });
  }
  rows.push({ text: 'Total', amount: say(price.total), strong: true });
  if (nonZero(price.deposit)) rows.push({ text: 'Deposit to order', amount: say(price.deposit) });
  return rows;
}

function quantityOf(line, say) {
  if (!line.quantity || Number(line.quantity) === 1) return '';
  return line.unit ? `${line.quantity} × ${say(line.unit)}` : `${line.quantity}`;
}

function allFindings(quote, key) {
  const many = quote.items.length > 1;
  const ofJob = (quote[key] ?? []).map((one) => ({ ...one, item: '' }));
  const ofItems = quote.items.flatMap((item, index) =>
    (item[key] ?? []).map((one) => ({ ...one, at: index, item: many ? `${index + 1}. ${item.template_name}` : '' })),
  );
  return [...ofJob, ...ofItems];
}

const gravestFirst = (all) => all.sort((a, b) => (LEVELS[a.level]?.order ?? 2) - (LEVELS[b.level]?.order ?? 2));

/**
 * The findings to show, most serious first; `item` says which piece, `at` its number in the job from 0. The customer may be looking, so what is
 * for the shop alone stays on the shop's side, but a stop is shown to whoever looks.
 */
export function findingsOf(quote) {
  const shopStops = allFindings(quote, 'shop_findings').filter((one) => one.level === 'stop');
  return gravestFirst([...allFindings(quote, 'findings'), ...shopStops]);
}

/** What only the shop needs to know. */
export const shopFindings = (quote) =>
  gravestFirst(allFindings(quote, 'shop_findings').filter((one) => one.level !== 'stop'));

/** The stops that hold the paper back, each rule once: those nobody has answered for in writing. */
export function stopsOf(quote) {
  const held = new Set(quote.held_by ?? []);
  const found = findingsOf(quote).filter((one) => one.level === 'stop' && held.has(one.rule));
  const named = found.filter((one, index) => found.findIndex((other) => other.rule === one.rule) === index);
  const unnamed = [...held].filter((rule) => !named.some((one) => one.rule === rule));
  return [...named, ...unnamed.map((rule) => ({ rule, level: 'stop', title: rule, detail: '' }))];
}

/** One line for a list of quotes: pieces and sizes. */
export function itemLine(item) {
  const { length, depth, height } = item.overall ?? {};
  const size = [length, depth, height]
    .filter(Boolean)
    .map((one) => one.text)
    .join(' × ');
  const count = item.quantity > 1 ? `${item.quantity} × ` : '';
  return `${count}${item.template_name}${size ? `, ${size}` : ''}`;
}

/** A moment as the clock on the wall shows it, with its distance from UTC: "2026-11-25T17:10:00+01:00". */
export function momentText(when) {
  const two = (number) => String(Math.trunc(Math.abs(number))).padStart(2, '0');
  const ahead = -when.getTimezoneOffset();
  const day = `${when.getFullYear()}-${two(when.getMonth() + 1)}-${two(when.getDate())}`;
  const clock = `${two(when.getHours())}:${two(when.getMinutes())}:${two(when.getSeconds())}`;
  return `${day}T${clock}${ahead < 0 ? '-' : '+'}${two(ahead / 60)}:${two(ahead % 60)}`;
}

/** The choices in words: "Back: Curved top". */
export const choiceLines = (item) =>
  Object.entries(item.choice_labels ?? {}).map(([name, label]) => `${name}: ${label}`);

/** Is this the shop's answer (costs in it)? */
export const hasShopSide = (quote) => Boolean(quote.price?.build_up);

/** The shop's side of a quote as plain rows; shown only behind its own switch. */
export function shopRows(quote) {
  const say = (amount) => money(amount, quote.price.currency);
  const build = Array.isArray(quote.price.build_up)
    ? quote.price.build_up
    : Object.entries(quote.price.build_up).map(([text, amount]) => ({ text, amount }));
  const rows = build.map((line) => ({
    text: line.text ?? line.name ?? line.what ?? line.kind,
    quantity: line.working ?? '',
    amount: say(line.amount ?? line.result),
  }));
  const margin = Number(quote.price.margin_share);
  if (Number.isFinite(margin))
    rows.push({ text: 'Margin, share of the price', amount: `${(margin * 100).toFixed(1)} %`, strong: true });
  return rows;
}

/** What to buy: boards, sheets, rolls and hardware packs. */
export function buyRows(quote) {
  const say = (amount) => (amount === undefined ? '' : money(amount, quote.price.currency));
  const boards = (quote.stock ?? []).map((one) => ({
    text: one.name,
    quantity: `${one.count} ${one.kind}${one.count === 1 ? '' : 's'}${one.code?.startsWith('on-hand') ? ' from the rack, not to buy' : ''}`,
    amount: say(one.amount),
  }));
  const packs = (quote.hardware ?? [])
    .filter((one) => one.packs !== 0)
    .map((one) => ({
      text: one.name,
      quantity: `${one.packs} pack${one.packs === 1 ? '' : 's'} (needs ${one.need})`,
      amount: say(one.amount),
    }));
  return [...boards, ...packs];
}

/** "2026-05-23" as "23 May 2026": no country reads that the other way round. */
export function dayText(date) {
  const day = new Date(`${date}T12:00:00`);
  return Number.isNaN(day.getTime())
    ? date
    : `${day.getDate()} ${day.toLocaleDateString('en', { month: 'long' })} ${day.getFullYear()}`;
}

/** A file name for the paper: letters, figures and dashes of the reference and the customer. */
export function paperName(quote) {
  const safe = (text) =>
    (text ?? '')
      .normalize('NFC')
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-+|-+$/g, '');
  return `${['quote', safe(quote.reference), safe(quote.customer?.name)].filter(Boolean).join('-')}.pdf`;
}

/** What a paper is made from: the quote without the workshop's side, which may be larger than the service takes. */
export function forPaper(quote) {
  const { cutting, shop_working, shop_findings, ...rest } = quote;
  return rest;
}

/** Where the reason for going on in spite of a stop is kept in the draft: the rule's name without dots. */
export const overrideKey = (rule) => rule.replace(/[^\p{L}\p{N}]+/gu, '-');
