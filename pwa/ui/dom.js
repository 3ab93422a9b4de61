/** Elements from plain words: h('p', {class: 'hint'}, 'text'). Text is always text; no markup is ever parsed. */

const SVG = 'http://www.w3.org/2000/svg';

function dress(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name === 'on') for (const [event, listen] of Object.entries(value)) element.addEventListener(event, listen);
    else if (name === 'value') element.value = value;
    else element.setAttribute(name, value === true ? '' : value);
  }
  return element;
}

export function h(tag, attributes = {}, ...children) {
  const element = dress(document.createElement(tag), attributes);
  element.append(
    ...children.flat(3).filter((child) => child !== null && child !== undefined && child !== false && child !== ''),
  );
  return element;
}

export function svg(tag, attributes = {}, ...children) {
  const element = dress(document.createElementNS(SVG, tag), attributes);
  element.append(...children.flat(3).filter((child) => child !== null && child !== undefined && child !== false));
  return element;
}

/** A sheet of the form with its heading, "" = none. */
export const sheet = (title, ...children) => h('div', { class: 'sheet' }, title && h('h2', {}, title), children);

/** A verb for the controller, sent up from where it happened. */
export function tell(element, verb, detail = {}) {
  element.dispatchEvent(new CustomEvent('verb', { bubbles: true, detail: { verb, ...detail } }));
}

export const button = (text, verb, detail = {}, attributes = {}) =>
  h(
    'button',
    { type: 'button', ...attributes, on: { click: (event) => tell(event.currentTarget, verb, detail) } },
    text,
  );

/** A button that takes one line out of a list of the draft; `what` names the line for a screen reader. */
export const removeButton = (list, index, what) =>
  button('Remove', 'remove-line', { list, index }, { 'aria-label': `Remove ${what}`, class: 'wide' });

/** Which details are open and where the cursor stands, so that drawing a step again disturbs nobody. */
function remember(root) {
  const active = root.contains(document.activeElement) ? document.activeElement : null;
  let caret = null;
  try {
    caret = active ? [active.selectionStart, active.selectionEnd] : null;
  } catch {
    /* no caret here */
  }
  const open = new Map([...root.querySelectorAll('details[id]')].map((one) => [one.id, one.open]));
  return { id: active?.id, caret, open };
}

/** Put new children into `root`; open details, focus and cursor stay where they were. */
export function redraw(root, ...children) {
  const kept = remember(root);
  root.replaceChildren(...children.flat(3).filter(Boolean));
  for (const [id, open] of kept.open) {
    const one = root.querySelector(`#${CSS.escape(id)}`);
    if (one) one.open = open;
  }
  const again = kept.id && root.querySelector(`#${CSS.escape(kept.id)}`);
  if (!again) return;
  again.focus({ preventScroll: true });
  try {
    if (kept.caret?.[0] !== null && kept.caret) again.setSelectionRange(...kept.caret);
  } catch {
    /* no caret here */
  }
}

/** A folded part of the form; `told` says in a word what is inside. */
export const fold = (id, title, told, ...inside) =>
  h(
    'details',
    { id },
    h('summary', {}, h('span', { class: 'title' }, title), told && h('span', { class: 'told' }, told)),
    h('div', { class: 'inside' }, inside),
  );
