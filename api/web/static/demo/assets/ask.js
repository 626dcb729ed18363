// Asking the service, and saying what it found wrong.

/** What the service answers when a request has faults (RFC 9457). */
export class Problem extends Error {
  constructor(body) {
    super(body.detail || body.title || 'The service gave no answer.');
    this.faults = body.errors || [];
    this.status = body.status;
  }
}

/**
 * Posts a request and gives the answer: parsed where it is JSON, else as a blob.
 * @param {string} path
 * @param {object} request
 * @param {{accept?: string, signal?: AbortSignal}} [how]
 */
export async function ask(path, request, { accept = 'application/json', signal } = {}) {
  const answer = await reach(path, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', Accept: `${accept}, application/problem+json` },
    body: JSON.stringify(request),
    signal,
  });
  return accept === 'application/json' ? answer.json() : answer.blob();
}

/** Fetches a document of the service as JSON. */
export async function read(path) {
  return (await reach(path, { headers: { Accept: 'application/json' } })).json();
}

async function reach(path, init) {
  let answer;
  try {
    answer = await fetch(path, { credentials: 'omit', referrerPolicy: 'no-referrer', ...init });
  } catch (error) {
    if (error.name === 'AbortError') throw error;
    throw new Problem({ detail: 'The service cannot be reached. Try again in a moment.' });
  }
  if (answer.ok) return answer;
  throw new Problem(await answer.json().catch(() => ({ status: answer.status })));
}

/** Whether an error only says that a newer question has taken the place of this one. */
export const isStale = (error) => error.name === 'AbortError';

/**
 * Runs only the newest of several askings: each new one stops the one before it,
 * after a pause in which nothing more was typed.
 * @param {(signal: AbortSignal) => Promise<void>} work
 */
export function newest(work, pause = 250) {
  let timer;
  let running;
  return () => {
    clearTimeout(timer);
    running?.abort();
    timer = setTimeout(() => {
      running = new AbortController();
      work(running.signal);
    }, pause);
  };
}

/** A drawing of the service as an element of this page. */
export async function drawing(blob) {
  const parsed = new DOMParser().parseFromString(await blob.text(), 'image/svg+xml');
  const picture = document.importNode(parsed.documentElement, true);
  if (picture.localName !== 'svg') throw new Problem({ detail: 'The drawing did not arrive whole.' });
  for (const unwanted of picture.querySelectorAll('script, foreignObject, a')) unwanted.remove();
  return picture;
}

/** An element with text and attributes. */
export function make(name, attributes = {}, ...content) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === true) element.setAttribute(key, '');
    else if (value !== false && value !== undefined) element.setAttribute(key, value);
  }
  element.append(...content);
  return element;
}

/** Takes the marks of faults off every field of a form. */
export function clearFaults(form) {
  for (const note of form.querySelectorAll('.fault[id^="fault-"]')) note.remove();
  for (const field of form.querySelectorAll('[aria-invalid]')) {
    field.removeAttribute('aria-invalid');
    field.removeAttribute('aria-describedby');
  }
}

let faultCount = 0;

/** Shows a fault beside its field. */
export function showFault(field, fault) {
  const text = fault.try ? `${fault.detail}. Try: ${fault.try}` : fault.detail;
  const note = make('p', { class: 'fault', id: `fault-${(faultCount += 1)}` }, text);
  field.setAttribute('aria-invalid', 'true');
  field.setAttribute('aria-describedby', note.id);
  field.closest('td, .field').append(note);
}
