/**
 * The only fetch. Every failure becomes one shape:
 *   Failure.kind     "offline" (no answer in time), "busy" (try later), "refused" (change something)
 *   Failure.problem  {title, detail, code, errors: [{pointer, detail}]} in plain words
 */

const QUICK_MS = 6_000;
const QUOTE_MS = 60_000;
/** Many pieces are built and a few jobs priced for it. */
const MENDS_MS = 180_000;

export class Failure extends Error {
  constructor(kind, problem, waitSeconds = 0) {
    super(problem.detail || problem.title);
    this.kind = kind;
    this.problem = problem;
    this.waitSeconds = waitSeconds;
  }
}

let key = '';

/** The shop's or the customer's key, "" = none (enough on the shop's own computer). */
export function useKey(text) {
  key = text.trim();
}

async function failureOf(response) {
  let problem = {};
  try {
    problem = await response.json();
  } catch {
    /* an answer that is no JSON: the status alone must do */
  }
  const told = {
    status: response.status,
    title: problem.title || `The service answered ${response.status}`,
    detail: problem.detail || '',
    code: problem.code || '',
    errors: Array.isArray(problem.errors) ? problem.errors : [],
  };
  if (response.status === 429 || response.status >= 502) {
    return new Failure('busy', told, Number(response.headers.get('Retry-After')) || 0);
  }
  return new Failure('refused', told);
}

async function ask(path, { method = 'GET', body, accept = 'application/json', within = QUICK_MS } = {}) {
  const headers = { Accept: accept };
  if (body !== undefined) headers['Content-Type'] = 'application/json';
  if (key) headers.Authorization = `Bearer ${key}`;
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), within);
  try {
    const response = await fetch(path, {
      method,
      headers,
      body: body === undefined ? undefined : JSON.stringify(body),
      signal: stop.signal,
    });
    if (!response.ok) throw await failureOf(response);
    if (accept === 'application/pdf') return await response.arrayBuffer();
    return accept === 'image/svg+xml' ? await response.text() : await response.json();
  } catch (error) {
    if (error instanceof Failure) throw error;
    throw new Failure('offline', {
      title: 'No signal',
      detail: 'The service did not answer.',
      code: 'offline',
      errors: [],
    });
  } finally {
    clearTimeout(timer);
  }
}

export const shop = () => ask('v1/shop');
export const templates = async () => (await ask('v1/templates')).templates;
export const template = (id, units) => ask(`v1/templates/${encodeURIComponent(id)}?units=${units}`);
export const quote = (job) =>
  ask('v1/quotes', { method: 'POST', body: job, within: job.mends ? MENDS_MS : QUOTE_MS });
export const paper = (body) => ask('v1/papers', { method: 'POST', body, accept: 'application/pdf', within: QUOTE_MS });
export const drawing = (body) =>
  ask('v1/drawings', { method: 'POST', body, accept: 'image/svg+xml', within: QUOTE_MS });
