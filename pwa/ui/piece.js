/** Step 2: the piece. Sizes, and at once whether it fits, or the largest that does. Works without signal. */
import { hiddenSizes } from '../logic/holding.js';
import { button, h, redraw, tell } from './dom.js';
import { field } from './field.js';
import { sketch } from './sketch.js';
import { verdict, verdictLine } from './verdict.js';

/** Buttons for the pieces of a job with more than one. */
export function itemButtons(view) {
  const { draft, catalogue } = view;
  if (draft.items.length < 2) return null;
  return h(
    'div',
    { class: 'items', role: 'group', 'aria-label': 'Pieces in this job' },
    draft.items.map((item, index) =>
      button(
        `${index + 1}. ${catalogue.nameOf(item.template) || 'Not chosen'}`,
        'pick-item',
        { index },
        { 'aria-pressed': String(index === draft.item), id: `item-${index}` },
      ),
    ),
  );
}

function templates(view) {
  const { draft, catalogue } = view;
  const path = `items.${draft.item}.template`;
  const now = draft.items[draft.item].template;
  if (!catalogue.templates.length) {
    return h(
      'p',
      { class: 'hint' },
      'The list of pieces has not been fetched on this phone yet. It comes with the first signal and is then kept.',
    );
  }
  return h(
    'fieldset',
    { class: 'choose' },
    h('legend', {}, 'What is to be made?'),
    h(
      'div',
      { class: 'options' },
      catalogue.templates.map((one) =>
        h(
          'label',
          {},
          h('input', {
            type: 'radio',
            name: 'template',
            id: `template-${one.id}`,
            value: one.id,
            checked: one.id === now,
            'data-path': path,
            'data-draws': true,
          }),
          h('span', { class: 'words' }, h('b', {}, one.name), h('span', {}, one.summary)),
        ),
      ),
    ),
  );
}

/** Draw the step. */
export function drawPiece(root, view) {
  const { draft, catalogue } = view;
  const item = draft.items[draft.item];
  const template = item.template && catalogue.template(item.template);
  const hidden = hiddenSizes(draft, draft.item, catalogue);
  redraw(
    root,
    h('h1', { id: 'step-title', tabindex: '-1' }, 'The piece'),
    itemButtons(view),
    h(
      'div',
      { class: 'two' },
      h(
        'div',
        { class: 'stack' },
        h('div', { class: 'sheet' }, templates(view)),
        item.template &&
          !template &&
          h('p', { class: 'hint' }, 'The sizes of this piece have not been fetched on this phone yet.'),
        template &&
          h(
            'div',
            { class: 'sheet' },
            h('h2', {}, 'Sizes'),
            template.dimensions.filter((rule) => !hidden.has(rule.name)).map((rule) => sizeField(view, rule)),
            button('Back to the usual sizes', 'usual-sizes', {}, { class: 'plain' }),
          ),
      ),
      template &&
        h(
          'div',
          { class: 'stack stick' },
          h('div', { id: 'verdict' }, verdict(view)),
          h('div', { id: 'sketch' }, sketch(view)),
          h('div', { id: 'picture' }, picture(view)),
        ),
    ),
    template && h('div', { id: 'verdict-line', class: 'pinned', role: 'status' }, verdictLine(view)),
    draft.items.length > 1 &&
      button(
        'Take this piece out of the job',
        'remove-line',
        { list: 'items', index: draft.item, what: 'piece' },
        { class: 'wide' },
      ),
  );
}

function sizeField(view, rule) {
  const made = `Made from ${rule.min.text} to ${rule.max.text}.`;
  const path = `items.${view.draft.item}.dimensions.${rule.name}`;
  return h('div', {}, field(path, view, { stepped: true }), h('p', { class: 'small' }, made));
}

const SEEN = {
  isometric: 'seen at an angle',
  opened: 'opened, seen at an angle',
  front: 'seen from the front',
  side: 'seen from the side',
  plan: 'seen from above',
};

/** The drawing the service made of this item, or why there is none. */
export function picture(view) {
  const { drawing } = view;
  if (!drawing) return h('p', { class: 'hint' }, view.status.offline ? 'The drawing needs signal.' : '');
  const opens =
    view.catalogue.template(view.draft.items[view.draft.item].template)?.fit.envelope.open_height !== undefined;
  const views = [
    ['isometric', 'Whole'],
    ...(opens ? [['opened', 'Opened']] : []),
    ['front', 'Front'],
    ['side', 'Side'],
    ['plan', 'From above'],
  ];
  return h(
    'figure',
    { class: 'sheet' },
    h('img', { class: 'drawing', src: drawing.address, alt: `Drawing of the ${drawing.name}, ${SEEN[drawing.view]}` }),
    h(
      'figcaption',
      { class: 'items', role: 'group', 'aria-label': 'Seen from' },
      views.map(([id, label]) =>
        h(
          'button',
          {
            type: 'button',
            id: `view-${id}`,
            'aria-pressed': String(id === drawing.view),
            on: { click: (event) => tell(event.currentTarget, 'look', { view: id }) },
          },
          label,
        ),
      ),
    ),
  );
}
