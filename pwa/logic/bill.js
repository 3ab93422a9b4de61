/**
 * What goes on the bill beside the pieces: extras, a discount, the delivery, and boards the shop already has.
 * `take` reads the fields of the draft and collects what is wrong with them (see request.js).
 */
import { chosenItems } from './draft.js';

/** Either a share or an amount, each with its reason. */
function discountOf(take) {
  const share = take.take('discount.share', '/discount/share');
  const amount = take.take('discount.amount', '/discount/amount');
  if (!share && !Number(amount)) return null;
  const reason = take.take('discount.reason', '/discount/reason', 'a discount needs its reason.') ?? '';
  if (share && Number(amount)) take.fault('discount.amount', 'Give a share or an amount, not both.');
  return share ? { share: String(Number((share / 100).toFixed(6))), reason } : { amount, reason };
}

/** The timber of the first piece, as chosen or as usual for it. */
function timberOf(take) {
  const item = chosenItems(take.draft)[0];
  const rule = take.catalogue?.template(item?.template)?.choices.find((one) => one.name === 'timber');
  return item?.choices.timber ?? rule?.default ?? '';
}

/** Boards the shop already has; the cutting plan takes them first where that is cheapest. */
function rackOf(take) {
  const lines = [];
  (take.draft.rack ?? []).forEach((line, index) => {
    if (!line.section.trim() && !line.length.trim()) return;
    const [base, pointer] = [`rack.${index}`, `/on_hand/${lines.length}`];
    const paths = { section: `${base}.section`, length: `${base}.length`, count: `${base}.count` };
    const needed = { section: 'say which section.', length: 'measure the length of one.', count: 'how many?' };
    take.where[`${pointer}/timber`] = `${base}.section`;
    const record = take.record(paths, pointer, needed);
    lines.push({ timber: line.timber || timberOf(take), ...record });
  });
  return lines;
}

/** Extras, discount, delivery and the boards already there, as the service is asked. */
export function billOf(take) {
  const body = {};
  const extras = [];
  take.draft.extras.forEach((line, index) => {
    if (!line.text.trim() && !line.amount.trim()) return;
    const base = `extras.${index}`;
    const record = take.record({ text: `${base}.text`, amount: `${base}.amount` }, `/extras/${extras.length}`, {
      text: 'say what it is.',
      amount: 'say what it costs.',
    });
    extras.push({ ...record, taxed: !line.untaxed });
  });
  if (extras.length) body.extras = extras;
  const discount = discountOf(take);
  if (discount) body.discount = discount;
  const delivery = take.record({ distance: 'delivery.distance', crew: 'delivery.crew' }, '/delivery');
  if (take.draft.delivery.install) delivery.install = true;
  if (Object.keys(delivery).length) body.delivery = delivery;
  const rack = rackOf(take);
  if (rack.length) body.on_hand = rack;
  return body;
}
