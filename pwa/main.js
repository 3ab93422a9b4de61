/** Mounts the screens, follows the address (#/job/<id>/<step>/<field>), and registers the worker. */
import { drain } from './asking.js';
import { announce, flush, loadCatalogue, newJob, onChange, openJob, remember, start, state } from './controller.js';
import { STEPS } from './logic/draft.js';
import { jobsView, jobView } from './present.js';
import { share } from './ports/share.js';
import { exportJobs, importJobs, pictureSoon, VERBS } from './verbs.js';
import { drawBars, drawOnward, drawStatus, drawSteps, titleText, toast } from './ui/bars.js';
import { drawChoices } from './ui/choices.js';
import { drawCustomer } from './ui/customer.js';
import { redraw } from './ui/dom.js';
import { idOf, showTold } from './ui/field.js';
import { drawJobs } from './ui/jobs.js';
import { moveKeys } from './ui/keys.js';
import { drawPiece, picture } from './ui/piece.js';
import { drawPrice } from './ui/price.js';
import { sketch } from './ui/sketch.js';
import { verdict, verdictLine } from './ui/verdict.js';
import { doubts, drawSpace } from './ui/space.js';

const $ = (id) => document.getElementById(id);
const DRAW = { space: drawSpace, piece: drawPiece, choices: drawChoices, customer: drawCustomer, price: drawPrice };
const RETRY_MS = 15_000;

let step = '';
let view = null;

// --- drawing ----------------------------------------------------------------------------------------

function currentPicture() {
  const draft = state.current;
  return state.picture?.item === `${draft.id} ${draft.item} ${draft.items[draft.item].template}` ? state.picture : null;
}

function drawFrame() {
  drawStatus($('status'), state.status);
  drawBars($('bars'), { status: state.status });
  $('where').textContent = titleText({ draft: state.current });
}

function drawStep() {
  view = jobView(step, currentPicture());
  DRAW[step]($('step'), view);
  drawSteps($('steps'), view);
  drawOnward($('onward'), view);
}

function draw() {
  drawFrame();
  const inJob = Boolean(state.current);
  for (const [id, shown] of [
    ['jobs', !inJob],
    ['job', inJob],
    ['steps', inJob],
    ['to-jobs', inJob],
  ])
    $(id).hidden = !shown;
  if (inJob) drawStep();
  else drawJobs($('job-list'), jobsView());
}

/** While a text is typed only what depends on it is drawn again, never the field itself. */
function drawAround(input) {
  view = jobView(step, currentPicture());
  showTold(input.closest('.field'), view);
  if ($('doubts')) redraw($('doubts'), doubts(view));
  if ($('sketch')) redraw($('sketch'), sketch(view));
  if (step === 'piece') {
    redraw($('verdict'), verdict(view));
    const line = verdictLine(view);
    if ($('verdict-line').textContent !== line.textContent) redraw($('verdict-line'), line);
    redraw($('picture'), picture(view));
    pictureSoon();
  }
  drawFrame();
  drawSteps($('steps'), view);
}

// --- the address ------------------------------------------------------------------------------------

function focusField(path) {
  const input = $(idOf(path)) ?? document.querySelector(`[data-path="${CSS.escape(path)}"]`);
  for (let folded = input?.closest('details'); folded; folded = folded.parentElement.closest('details'))
    folded.open = true;
  input?.focus();
  input?.scrollIntoView({ block: 'center' });
}

/** Follow the address. `arriving` puts the reader at the top of the new step. */
function follow(arriving = true) {
  const [, place, id, asked, path] = location.hash.split('/').map(decodeURIComponent);
  const known = place === 'job' && state.drafts.has(id);
  const wanted = STEPS.some((one) => one.id === asked) ? asked : 'space';
  const moved = (known ? wanted : '') !== step || (known ? id : '') !== (state.current?.id ?? '');
  step = known ? wanted : '';
  openJob(known ? id : '');
  remember(known ? `#/job/${id}/${step}` : '');
  draw();
  if (step === 'piece') pictureSoon(0);
  if (path) focusField(path);
  else if (arriving && moved) {
    window.scrollTo(0, 0);
    ($('step-title') && step ? $('step-title') : $('main')).focus({ preventScroll: true });
  }
}

// --- what comes up from the screen ------------------------------------------------------------------

function onInput(event) {
  const input = event.target;
  const { path } = input.dataset;
  if (!path || !state.current) return;
  if (input.type === 'radio' && !input.checked) return;
  VERBS.type({ path, value: input.type === 'checkbox' ? input.checked : input.value });
  if (input.dataset.draws !== undefined) {
    drawStep();
    if (step === 'piece') pictureSoon(0);
  } else if (input.closest('.field')) drawAround(input);
}

function saveFile(text, name) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** Verbs that need the page itself; all others are in verbs.js. */
const HERE = {
  'export-jobs': () => saveFile(exportJobs(), 'yardwright-jobs.json'),
  'keep-key': () => VERBS['keep-key']({ key: $('key').value.trim() }),
  'use-new-version': async () => {
    await flush();
    const registration = await navigator.serviceWorker.getRegistration();
    registration?.waiting?.postMessage('take over');
  },
  'share-paper': () =>
    share(view.paper.bytes, view.paper.name, view.paper.name).catch(() =>
      toast($('toast'), 'The phone does not share this file. Open it or save it instead.'),
    ),
  sign: () => VERBS.sign({ quote: view.quote, signature: view.signature }),
  'make-paper': () => VERBS['make-paper']({ quote: view.quote }),
};

async function onVerb(event) {
  const { verb, ...detail } = event.detail;
  const result = await (HERE[verb] ?? VERBS[verb])(detail);
  if (result?.said && !result.undo) toast($('toast'), result.said, null, 4);
  if (result?.undo)
    toast($('toast'), result.said ?? (verb === 'delete-job' ? 'Job deleted.' : 'Removed.'), {
      label: 'Undo',
      run: result.undo,
    });
  if (verb === 'take-mend') $('step-title').focus();
  if (verb === 'add-item') location.hash = view.linkTo('piece').slice(1);
  if (verb === 'add-line')
    $('step')
      .querySelector(`[data-path^="${detail.list}.${lengthOf(detail.list) - 1}."]`)
      ?.focus();
}

const lengthOf = (list) => list.split('.').reduce((node, key) => node[key], state.current).length;

function onAnnounce(what) {
  if (what === 'status') return drawFrame();
  if (what === 'picture') {
    if (step !== 'piece') return undefined;
    view = jobView(step, currentPicture());
    return redraw($('picture'), picture(view));
  }
  const typing = document.activeElement?.matches?.('#step input[data-path], #step textarea');
  if (what === 'catalogue' && typing) return drawFrame();
  draw();
  if (what === 'faults' && step === 'price') $('faults')?.focus();
  return undefined;
}

// --- the worker -------------------------------------------------------------------------------------

/** Under trusted types a script address must come from a named policy; ours lets the worker through alone. */
function trusted(address) {
  if (!self.trustedTypes) return address;
  const policy = self.trustedTypes.createPolicy('app', {
    createScriptURL: (asked) => (asked === 'sw.js' ? asked : ''),
  });
  return policy.createScriptURL(address);
}

async function registerWorker() {
  if (!('serviceWorker' in navigator)) return;
  let first = !navigator.serviceWorker.controller;
  const registration = await navigator.serviceWorker.register(trusted('sw.js'), { updateViaCache: 'none' });
  const offer = () => {
    if (registration.waiting && navigator.serviceWorker.controller) {
      state.status.newVersion = true;
      announce('status');
    }
  };
  offer();
  registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', offer));
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    const installed = first;
    first = false;
    if (!installed) location.reload();
    else loadCatalogue().then(() => toast($('toast'), 'This app works without signal now.', null, 5));
  });
}

// --- mounting ---------------------------------------------------------------------------------------

function listen() {
  document.addEventListener('verb', onVerb);
  $('job').addEventListener('input', onInput);
  $('job').addEventListener('submit', (event) => event.preventDefault());
  $('job').addEventListener('focusin', ({ target }) => {
    if (target.matches('.length input')) moveKeys($('job'), target, state.current.units);
  });
  $('job').addEventListener('focusout', ({ target }) => {
    if (target.dataset.path && target.closest('.field')) setTimeout(() => showTold(target.closest('.field'), view));
  });
  $('new-job').addEventListener('click', async () => {
    location.hash = `#/job/${await newJob()}/space`;
  });
  document.addEventListener('change', async ({ target }) => {
    if (target.id !== 'import' || !target.files[0]) return;
    const count = await importJobs(await target.files[0].text()).catch(() => -1);
    toast(
      $('toast'),
      count < 0 ? 'This file holds no jobs of this app.' : `${count} job${count === 1 ? '' : 's'} brought in.`,
    );
  });
  window.addEventListener('hashchange', () => follow());
  window.addEventListener('pagehide', flush);
  window.addEventListener('online', () => {
    loadCatalogue();
    drain();
  });
  window.addEventListener('offline', () => {
    state.status.offline = true;
    announce('status');
  });
  document.addEventListener('visibilitychange', () => {
    flush();
    if (!document.hidden) drain();
  });
  setInterval(() => {
    if (state.status.waiting && !document.hidden) drain();
  }, RETRY_MS);
}

async function mount() {
  onChange(onAnnounce);
  listen();
  try {
    await start();
  } catch (error) {
    state.status.unsaved = `${error.message}.`;
  }
  if (!location.hash && state.settings.open) history.replaceState(null, '', state.settings.open);
  follow(false);
  registerWorker().catch(() => {});
  await loadCatalogue();
  await drain();
}

mount();
