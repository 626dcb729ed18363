// A supplier's order form: one piece, planned on every cloth of the store.
import { Problem, ask, clearFaults, drawing, isStale, make, newest, read, showFault } from '/demo/assets/ask.js';
import { kinds, listKinds, pieceOf, showKind } from '/demo/assets/piece.js';

const $ = (id) => document.getElementById(id);
const form = $('form');
const price = (p) => new Intl.NumberFormat('en-GB', { style: 'currency', currency: p.currency }).format(p.amount);

let known = [];
let cloths = [];
let ranked = []; // of the newest answer
let chosen = ''; // the name of a cloth

/** The piece as a request for its cutting list, on a cloth where one is chosen. */
function piece(cloth) {
  const request = pieceOf(form, $('kind').value);
  request.count = Number($('count').value);
  if (cloth) request.cloth = cloth;
  return request;
}

/** The panels of the top cover. */
const topPanels = (list) => list.covers.find((c) => c.cover === 'top').panels;

const rank = newest(async (signal) => {
  clearFaults(form);
  $('general').textContent = '';
  try {
    if (!/^[1-9]\d?$/.test($('count').value.trim())) {
      showFault($('count'), { detail: 'this is not a number of pieces', try: 'a whole number from 1 to 20' });
      $('said').textContent = 'Nothing is planned until the form is right.';
      return;
    }
    const list = await ask('/v1/cutting-list', piece(), { signal });
    const request = { cloths, panels: topPanels(list), rankBy: $('rank').value };
    const answer = await ask('/v1/yardage/compare', request, { signal });
    ranked = answer.cloths;
    show();
    $('said').textContent = `${ranked.length} cloths are planned; ${best()}`;
    await choose(ranked.some((c) => c.name === chosen && c.usable) ? chosen : ranked[0].name, signal);
  } catch (error) {
    failed(error);
  }
});

function best() {
  const first = ranked[0];
  if (!first.usable) return 'none of them will do.';
  return `${first.name} is first: ${first.order.text}${first.cost ? `, ${price(first.cost)}` : ''}.`;
}

function show() {
  $('cloths').replaceChildren(...ranked.map((c) => {
    const radio = make('input', { type: 'radio', name: 'cloth', value: c.name, disabled: !c.usable });
    radio.checked = c.name === chosen;
    radio.addEventListener('change', () => choose(c.name));
    return make('tr', { 'data-cloth': c.name },
      make('th', { scope: 'row' }, make('label', {}, radio, c.name)),
      make('td', { class: 'figure', 'data-label': 'Order' }, c.order ? c.order.text : '-'),
      make('td', { class: 'figure', 'data-label': 'Cost' }, c.cost ? price(c.cost) : '-'),
      make('td', { class: 'figure', 'data-label': 'Waste' }, c.usable ? `${c.waste} %` : '-'),
      make('td', { 'data-label': 'Why' }, c.reason?.text || ''));
  }));
}

let drawn; // stops the drawing under way

/** Shows a cloth's plan, made with all the care there is time for. */
async function choose(name, signal) {
  drawn?.abort();
  drawn = new AbortController();
  const both = signal ? AbortSignal.any([signal, drawn.signal]) : drawn.signal;
  chosen = name;
  for (const row of $('cloths').rows) {
    const mine = row.dataset.cloth === name;
    row.classList.toggle('chosen', mine);
    row.querySelector('input').checked = mine;
  }
  $('choice').hidden = false;
  $('place').disabled = true;
  $('placed').textContent = '';
  try {
    const { cloth } = cloths.find((c) => c.cloth.name === name);
    const list = await ask('/v1/cutting-list', piece(cloth), { signal: both });
    const request = { cloth, panels: topPanels(list), effort: 'normal' };
    const answer = await ask('/v1/yardage', request, { signal: both });
    const picture = await drawing(await ask('/v1/yardage', request, { accept: 'image/svg+xml', signal: both }));
    const entry = ranked.find((c) => c.name === name);
    $('chosen').textContent = `${name}: ${answer.order.text}`;
    $('chosen-note').textContent = `The plan needs ${answer.needed.text}; no plan can use less than ${answer.bound.text}. `
      + `Cut in rows by hand it would take ${answer.rowsMethod.text}.`
      + (entry?.loosened ? ` ${entry.loosened} wishes about the pattern cannot be kept on this cloth.` : '');
    $('plan').replaceChildren(picture);
    $('place').disabled = false;
    $('place').dataset.length = answer.order.text;
  } catch (error) {
    failed(error);
  }
}

function failed(error) {
  if (isStale(error)) return;
  $('said').textContent = 'Nothing is planned until the form is right.';
  if (!(error instanceof Problem)) throw error;
  const left = [];
  for (const fault of error.faults) {
    const measure = /^#\/measures\/(.+)$/.exec(fault.pointer);
    const field = fault.pointer === '#/count' ? $('count') : measure && form.elements[`measure:${measure[1]}`];
    if (field) {
      field.closest('details')?.setAttribute('open', '');
      showFault(field, fault);
    } else {
      left.push(fault.detail);
    }
  }
  if (!error.faults.length) left.push(error.message);
  $('general').textContent = left.join('. ');
}

$('place').addEventListener('click', () => {
  $('placed').textContent = `Noted: ${$('place').dataset.length} of ${chosen}, for ${$('count').value} × ${$('kind').selectedOptions[0].text}, `
    + 'all from one dye lot. This is a demonstration: nothing was sent.';
});

async function begin() {
  try {
    [known, { cloths }] = await Promise.all([kinds(), read('/demo/assets/store.json')]);
  } catch (error) {
    failed(error);
    return;
  }
  const fields = () => showKind(known.find((k) => k.kind === $('kind').value), $('measures'), $('options'));
  listKinds($('kind'), known, 'club-chair');
  fields();
  $('kind').addEventListener('change', fields);
  form.addEventListener('input', rank);
  form.addEventListener('submit', (event) => event.preventDefault());
  rank();
}

begin();
