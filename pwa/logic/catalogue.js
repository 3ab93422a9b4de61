/** What the shop offers, as fetched and kept: templates by unit system, and the things that need room on a wall. */

/** `byKey` holds templates under "<id> <units>". */
export function makeCatalogue(shop, templates, byKey, units) {
  const keepClear = new Map((shop?.keep_clear ?? []).map((one) => [one.kind, one]));
  return {
    shop,
    templates,
    template: (id) => (id ? (byKey.get(`${id} ${units}`) ?? null) : null),
    nameOf: (id) => templates.find((one) => one.id === id)?.name ?? '',
    things: new Map([...keepClear].map(([kind, one]) => [kind, one.label])),
    keepClear: (kind) => keepClear.get(kind),
  };
}

/** Which steps are done, for the marks in the row of steps: something in them, and nothing wrong. */
export function doneSteps(draft, quotes, faults = []) {
  const piece = draft.items.some((item) => item.template);
  const right = (step) => !faults.some((fault) => fault.step === step);
  return {
    space:
      right('space') &&
      Boolean(draft.site.kind) &&
      (draft.site.readings.some((one) => one.value.trim()) || draft.site.kind === 'open'),
    piece: piece && right('piece'),
    choices: piece && right('choices') && Object.keys(draft.items[draft.item]?.choices ?? {}).length > 0,
    customer: right('customer') && Boolean(draft.customer.name.trim()),
    price: quotes.length > 0,
  };
}
