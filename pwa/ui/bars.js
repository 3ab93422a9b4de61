/** The frame around the form: status words, notices, the steps, and the toast that offers undo. */
import { STEPS, titleOf } from '../logic/draft.js';
import { button, h } from './dom.js';

/** "Saved", "Offline: kept on this phone", "Waiting to send: 1". */
export function statusText(status) {
  if (status.unsaved) return 'NOT SAVED';
  const parts = [];
  if (status.waiting) parts.push(`Waiting to send: ${status.waiting}`);
  if (status.sending) parts.push('Asking for the price');
  else if (status.offline) parts.push('Offline: kept on this phone');
  else if (!parts.length) parts.push(status.saving ? 'Saving' : 'Saved');
  return parts.join('. ');
}

export function drawStatus(element, status) {
  const text = statusText(status);
  if (element.textContent !== text) element.textContent = text;
}

let drawn = '';

export function drawBars(root, view) {
  const { status } = view;
  const now = JSON.stringify([status.demonstration, status.newVersion, status.unsaved, status.needsKey]);
  if (now === drawn) return;
  drawn = now;
  root.replaceChildren(
    ...[
      status.demonstration && h('p', { class: 'demonstration' }, 'DEMONSTRATION PRICES'),
      status.newVersion &&
        h(
          'div',
          {},
          h('p', {}, 'A new version is ready. Everything typed is saved.'),
          button('Use it now', 'use-new-version'),
        ),
      status.unsaved &&
        h(
          'div',
          {},
          h('p', {}, `The phone does not save: ${status.unsaved} Save the jobs as a file before you close the app.`),
          button('Save as a file', 'export-jobs'),
        ),
      status.needsKey &&
        h('div', {}, h('p', {}, 'The service asks for the shop’s key. Put it in under Jobs, Key and safe keeping.')),
    ].filter(Boolean),
  );
}

export function drawSteps(nav, view) {
  const list = h(
    'ol',
    {},
    STEPS.map((step, index) =>
      h(
        'li',
        {},
        h(
          'a',
          { href: view.linkTo(step.id), 'aria-current': step.id === view.step ? 'step' : null },
          h('span', { class: 'mark', 'aria-hidden': 'true' }, view.done[step.id] ? '✓' : String(index + 1)),
          step.name,
          view.done[step.id] && h('span', { class: 'quiet' }, ' (done)'),
        ),
      ),
    ),
  );
  nav.replaceChildren(list);
}

export function drawOnward(root, view) {
  const index = STEPS.findIndex((step) => step.id === view.step);
  const [before, after] = [STEPS[index - 1], STEPS[index + 1]];
  root.replaceChildren(
    ...[
      before && h('a', { class: 'button', href: view.linkTo(before.id) }, `Back: ${before.name}`),
      after && h('a', { class: 'button primary', href: view.linkTo(after.id) }, `Next: ${after.name}`),
    ].filter(Boolean),
  );
}

export const titleText = (view) => (view.draft ? titleOf(view.draft) : 'Yardwright');

let timer = 0;

/** Say something for a while, with an optional button: then long enough to see what the change came to. */
export function toast(root, text, action, seconds = action ? 20 : 8) {
  clearTimeout(timer);
  const close = () => root.replaceChildren();
  root.replaceChildren(
    h(
      'div',
      {},
      h('p', {}, text),
      action &&
        h(
          'button',
          {
            type: 'button',
            on: {
              click: () => {
                close();
                action.run();
              },
            },
          },
          action.label,
        ),
    ),
  );
  timer = setTimeout(close, seconds * 1000);
}
