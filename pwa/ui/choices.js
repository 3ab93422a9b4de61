/** Step 3: timber, finish and the other choices, how many, and more pieces for the same job. */
import { cautionsOf } from '../logic/holding.js';
import { button, fold, h, redraw } from './dom.js';
import { choose, field, pick } from './field.js';
import { itemButtons } from './piece.js';

const MOST_BUTTONS = 5;

function choice(view, rule) {
  const { draft } = view;
  const path = `items.${draft.item}.choices.${rule.name}`;
  const value = draft.items[draft.item].choices[rule.name] ?? rule.default;
  if (rule.options.length <= MOST_BUTTONS)
    return choose(path, rule.label, rule.options, view, { value, help: rule.help });
  const options = rule.options.map((one) =>
    one.id === rule.default ? { ...one, label: `${one.label} (usual)` } : one,
  );
  return pick(path, rule.label, options, {
    ...view,
    draft: {
      ...draft,
      items: draft.items.map((item, index) =>
        index === draft.item ? { ...item, choices: { ...item.choices, [rule.name]: value } } : item,
      ),
    },
  });
}

/** How it is made where the shop has its usual way: thicker boards, more posts. Folded away until one is taken. */
const isDetail = (rule) => rule.about === 'make' && rule.default === 'usual';

function details(view, rules) {
  if (!rules.length) return null;
  const chosen = view.draft.items[view.draft.item].choices;
  const taken = rules.filter((rule) => (chosen[rule.name] ?? rule.default) !== rule.default).length;
  return fold('heavier', 'Made heavier', taken ? `${taken} taken` : 'as usual', rules.map((rule) => choice(view, rule)));
}

/** Draw the step. */
export function drawChoices(root, view) {
  const { draft, catalogue } = view;
  const item = draft.items[draft.item];
  const template = item.template && catalogue.template(item.template);
  const cautions = template ? cautionsOf(draft, draft.item, catalogue) : [];
  redraw(
    root,
    h('h1', { id: 'step-title', tabindex: '-1' }, 'Choices'),
    itemButtons(view),
    !item.template && h('p', {}, 'Choose the piece first. ', h('a', { href: view.linkTo('piece') }, 'Go to the piece')),
    template && [
      h(
        'div',
        { class: 'sheet' },
        template.choices.filter((rule) => !isDetail(rule)).map((rule) => choice(view, rule)),
        details(view, template.choices.filter(isDetail)),
      ),
      h('div', { class: 'sheet' }, field(`items.${draft.item}.quantity`, view, { stepped: true })),
      template.included.length > 0 &&
        h(
          'div',
          { class: 'sheet' },
          h('h2', {}, 'Always included'),
          h(
            'ul',
            { class: 'plain-list' },
            template.included.map((line) => h('li', {}, line)),
          ),
        ),
      cautions.length > 0 &&
        h(
          'div',
          { class: 'finding caution' },
          h('h2', {}, 'To be said to the customer'),
          h(
            'ul',
            { class: 'plain-list' },
            cautions.map((line) => h('li', {}, line)),
          ),
        ),
      button('Add another piece to this job', 'add-item', {}, { class: 'wide' }),
    ],
  );
}
