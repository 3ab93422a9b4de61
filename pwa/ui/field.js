/**
 * One field of the form: label, box, unit, and one line under it that first helps, then says what was
 * understood, or what is wrong and what would be right. Length fields get a row of keys, since phone
 * keypads have no slash and no feet or inch marks.
 */
import { at } from '../logic/draft.js';
import { describe } from '../logic/fields.js';
import { readField, stepped } from '../logic/reading.js';
import { h } from './dom.js';

const MODES = {
  length: 'decimal',
  number: 'decimal',
  angle: 'decimal',
  share: 'decimal',
  money: 'decimal',
  whole: 'numeric',
};

export const idOf = (path) => `f-${path.replace(/[^a-zA-Z0-9_-]+/g, '-')}`;

const unitOf = (spec, draft) => (spec.kind === 'length' ? draft.units : spec.unit);

function box(path, draft, spec) {
  const id = idOf(path);
  const shared = {
    id,
    'data-path': path,
    autocomplete: spec.autocomplete ?? 'off',
    'aria-describedby': `${id}-told`,
    value: at(draft, path) ?? '',
  };
  if (spec.lines) return h('textarea', { ...shared, rows: spec.lines });
  const typing =
    spec.kind === 'text' || spec.kind === 'email'
      ? {}
      : { autocapitalize: 'off', autocorrect: 'off', spellcheck: 'false' };
  return h('input', {
    ...shared,
    ...typing,
    type: spec.kind === 'date' ? 'date' : 'text',
    inputmode: spec.inputmode ?? MODES[spec.kind],
    enterkeyhint: 'next',
    placeholder: spec.rule?.default.text,
  });
}

/** The field at `path`, drawn. `also` may give {stepped: true} for buttons that go one step up or down. */
export function field(path, view, also = {}) {
  const { draft, catalogue } = view;
  const spec = describe(path, draft, catalogue);
  const input = box(path, draft, spec);
  const unit = unitOf(spec, draft);
  const stepButton = (sign, word) =>
    h(
      'button',
      {
        type: 'button',
        'aria-label': `${spec.label}: one step ${word}`,
        on: {
          click: () =>
            write(input, stepped(input.value, view.draft.units, describe(path, view.draft, view.catalogue), sign)),
        },
      },
      sign < 0 ? '−' : '+',
    );
  const entry = spec.lines
    ? input
    : h(
        'div',
        { class: also.stepped ? 'entry stepped' : 'entry' },
        also.stepped && stepButton(-1, 'smaller'),
        input,
        unit && h('span', { class: 'unit', 'aria-hidden': 'true' }, unit),
        also.stepped && stepButton(1, 'larger'),
      );
  const whole = h(
    'div',
    { class: `field ${spec.kind}` },
    h(
      'label',
      { for: input.id },
      also.label ?? spec.label,
      unit && h('span', { class: 'quiet' }, ` in ${unit === 'in' ? 'inches' : unit === 'mm' ? 'millimetres' : unit}`),
    ),
    entry,
    h('p', { class: 'told', id: `${input.id}-told` }),
  );
  showTold(whole, view);
  return whole;
}

function candidateButtons(input, candidates) {
  return h(
    'div',
    { class: 'candidates' },
    candidates.map((text) =>
      h(
        'button',
        {
          type: 'button',
          on: {
            click: () => {
              write(input, text);
              input.focus();
            },
          },
        },
        `Take ${text}`,
      ),
    ),
  );
}

/** Say under the field what its text means. While it is being typed, a fault is a hint, not yet an error. */
export function showTold(whole, view) {
  const input = whole.querySelector('[data-path]');
  const told = whole.querySelector('.told');
  if (!input || !told) return;
  const spec = describe(input.dataset.path, view.draft, view.catalogue);
  const reading = readField(input.value, view.draft.units, spec);
  const refused = view.refusals?.[input.dataset.path];
  const typing = document.activeElement === input;
  const wrong = Boolean(refused) || (reading.state === 'bad' && !typing);
  const text =
    refused ??
    {
      empty: spec.help ?? '',
      good: [reading.echo, reading.note].filter(Boolean).join('. ') || spec.help || '',
      bad: reading.fault,
    }[reading.state];
  told.textContent = text.startsWith(`${spec.label}: `) ? text.slice(spec.label.length + 2) : text;
  told.className = `told ${refused || reading.state === 'bad' ? (wrong ? 'bad' : '') : reading.echo ? 'good' : ''}`;
  whole.classList.toggle('wrong', wrong);
  if (wrong) input.setAttribute('aria-invalid', 'true');
  else input.removeAttribute('aria-invalid');
  whole.querySelector('.candidates')?.remove();
  if (reading.candidates?.length) told.after(candidateButtons(input, reading.candidates));
}

/** Change the text as if it had been typed. */
export function write(input, text) {
  input.value = text;
  input.dispatchEvent(new Event('input', { bubbles: true }));
}

/** A group of radio buttons. Options are {id, label, help}. */
export function choose(path, legend, options, view, also = {}) {
  const now = also.value ?? at(view.draft, path);
  return h(
    'fieldset',
    { class: 'choose' },
    h('legend', {}, legend),
    also.help && h('p', { class: 'hint' }, also.help),
    h(
      'div',
      { class: also.side ? 'options side' : 'options' },
      options.map((option) =>
        h(
          'label',
          {},
          h('input', {
            type: 'radio',
            name: idOf(path),
            id: `${idOf(path)}-${option.id.replace(/\W+/g, '-')}`,
            value: option.id,
            checked: option.id === now,
            'data-path': path,
            'data-draws': true,
          }),
          h('span', { class: 'words' }, h('b', {}, option.label), option.help && h('span', {}, option.help)),
        ),
      ),
    ),
  );
}

/** A drop-down list, for more options than fit on a screen. Options are {id, label}. */
export function pick(path, label, options, view, also = {}) {
  const now = at(view.draft, path) ?? '';
  const id = idOf(path);
  return h(
    'div',
    { class: 'field' },
    h('label', { for: id }, label),
    h(
      'select',
      { id, 'data-path': path, 'data-draws': also.draws ?? true },
      options.map((option) => h('option', { value: option.id, selected: option.id === now }, option.label)),
    ),
  );
}

export function tick(path, label, view, also = {}) {
  return h(
    'label',
    { class: 'tick' },
    h('input', {
      type: 'checkbox',
      id: idOf(path),
      'data-path': path,
      'data-draws': also.draws,
      checked: Boolean(at(view.draft, path)),
    }),
    label,
  );
}
