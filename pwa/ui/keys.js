/** The row of keys under a length field: fractions, feet and inches, which phone keypads lack. */
import { addFraction } from '../logic/reading.js';
import { h } from './dom.js';
import { write } from './field.js';

const KEYS = {
  in: [
    ['1/2'],
    ['1/4'],
    ['1/8'],
    ['1/16'],
    ['ft', "' ", 'feet'],
    ['in', '"', 'inches'],
    ['/', '/', 'slash'],
    ['-', '-', 'dash'],
    ['␣', ' ', 'space'],
    ['mm', ' mm', 'millimetres'],
    ['cm', ' cm', 'centimetres'],
    ['⌫', null, 'delete the last character'],
  ],
  mm: [
    ['mm', ' mm', 'millimetres'],
    ['cm', ' cm', 'centimetres'],
    ['m', ' m', 'metres'],
    ['in', ' in', 'inches'],
    ['1/2'],
    ['⌫', null, 'delete the last character'],
  ],
};

function press(input, key) {
  const start = input.selectionStart ?? input.value.length;
  const end = input.selectionEnd ?? start;
  const before = input.value.slice(0, start);
  const after = input.value.slice(end);
  let head;
  if (key[1] === null) head = start === end ? before.slice(0, -1) : before;
  else if (key.length === 1) head = addFraction(before, Number(key[0].split('/')[1]));
  else head = before + key[1];
  write(input, head + after);
  input.setSelectionRange(head.length, head.length);
}

function keysFor(input, units) {
  const hold = (event) => event.preventDefault();
  return h(
    'div',
    { class: 'keys', role: 'group', 'aria-label': 'Keys for lengths' },
    KEYS[units].map((key) =>
      h(
        'button',
        {
          type: 'button',
          tabindex: '-1',
          'aria-label': key[2] ?? `plus ${key[0]}`,
          on: {
            pointerdown: hold,
            mousedown: hold,
            click: () => {
              press(input, key);
              input.focus({ preventScroll: true });
            },
          },
        },
        key[0],
      ),
    ),
  );
}

/** The keys stand under the length field used last; they stay until another one is used, so nothing jumps. */
export function moveKeys(root, input, units) {
  const whole = input.closest('.field.length');
  const standing = root.querySelector('.keys');
  if (!whole || (standing && whole.contains(standing))) return;
  standing?.remove();
  whole.querySelector('.told').before(keysFor(input, units));
}
