// The upholsterer's page: panels and a cloth, and the plan redrawn as they change.
import { Problem, ask, clearFaults, drawing, isStale, make, newest, showFault } from '/demo/assets/ask.js';
import { kinds, listKinds, pieceOf, showKind, withUnit } from '/demo/assets/piece.js';
import { panelOf, rowOf } from '/demo/assets/panels.js';

const $ = (id) => document.getElementById(id);
const form = $('form');

function clothOf() {
  const cloth = { width: withUnit($('cloth-width').value.trim()) };
  if ($('cloth-name').value.trim()) cloth.name = $('cloth-name').value.trim();
  if ($('cloth-step').value.trim()) cloth.soldBy = withUnit($('cloth-step').value.trim());
  if ($('cloth-way').checked) cloth.oneWay = true;
  const [along, across] = [$('cloth-along').value.trim(), $('cloth-across').value.trim()];
  if (along || across) cloth.pattern = {};
  if (along) cloth.pattern.lengthRepeat = withUnit(along);
  if (across) cloth.pattern.widthRepeat = withUnit(across);
  if (along && across && $('cloth-drop').value === 'half') cloth.pattern.drop = 'half';
  return cloth;
}

const rows = () => [...$('panels').rows];

const requestOf = () => ({ cloth: clothOf(), panels: rows().map(panelOf) });

const plan = newest(async (signal) => {
  clearFaults(form);
  $('general').textContent = '';
  if (!rows().length) {
    nothing('There are no panels on the bench.');
    return;
  }
  try {
    const request = requestOf();
    const answer = await ask('/v1/yardage', request, { signal });
    const picture = await drawing(await ask('/v1/yardage', request, { accept: 'image/svg+xml', signal }));
    figures(answer);
    $('plan').replaceChildren(picture);
    $('pdf').disabled = false;
    $('said').textContent = `Order ${answer.order.text}. ${answer.proven ? 'No plan is shorter: that is proved.' : `At most ${answer.gap} % above what any plan could use.`}`;
  } catch (error) {
    failed(error);
  }
});

function figures(answer) {
  const all = [['Order', answer.order.text, 'main'], ['The plan needs', answer.needed.text], ['No plan under', answer.bound.text],
    ['In rows by hand', answer.rowsMethod.text], ['Saved', answer.saved.text]];
  $('figures').replaceChildren(...all.map(([name, value, kind]) =>
    make('div', { class: kind }, make('dt', {}, name), make('dd', {}, value))));
}

function nothing(why) {
  $('said').textContent = why;
  $('figures').replaceChildren();
  $('plan').replaceChildren();
  $('pdf').disabled = true;
}

/** The field that a pointer of a fault names. */
function fieldAt(pointer) {
  const panel = /^#\/panels\/(\d+)(?:\/(.+))?$/.exec(pointer);
  if (panel) {
    const row = $('panels').rows[panel[1]];
    const part = { 'size/across': 'across', 'size/along': 'along', count: 'count', id: 'id' }[panel[2]]
      || (panel[2]?.startsWith('allow') ? 'allow' : panel[2]?.startsWith('match') ? 'match' : 'id');
    return row?.querySelector(`[name="${part}"]`);
  }
  const measure = /^#\/measures\/(.+)$/.exec(pointer);
  if (measure) return form.elements[`measure:${measure[1]}`];
  return pointer === '#/count' ? $('count') : form.querySelector(`[data-at="${CSS.escape(pointer)}"]`);
}

function failed(error) {
  if (isStale(error)) return;
  nothing('There is no plan until the faults below are mended.');
  if (!(error instanceof Problem)) throw error;
  const left = error.faults.length ? [] : [error.message];
  for (const fault of error.faults) {
    const field = fieldAt(fault.pointer);
    field?.closest('details')?.setAttribute('open', '');
    if (field) showFault(field, fault);
    else left.push(fault.detail);
  }
  $('general').textContent = left.join('. ');
}

/** Puts panels on the bench in place of what lies there. */
function lay(panels) {
  $('panels').replaceChildren(...panels.map((p) => rowOf(p, panels, take)));
}

function take(row) {
  const next = row.nextElementSibling || row.previousElementSibling;
  row.remove();
  (next?.querySelector('button') || $('add')).focus();
  plan();
}

async function fill() {
  clearFaults(form);
  try {
    const request = { ...pieceOf(form, $('kind').value), count: Number($('count').value), cloth: clothOf() };
    const list = await ask('/v1/cutting-list', request);
    lay(list.covers.find((c) => c.cover === 'top').panels);
    plan();
  } catch (error) {
    failed(error);
  }
}

async function download() {
  try {
    const file = URL.createObjectURL(await ask('/v1/yardage', requestOf(), { accept: 'application/pdf' }));
    make('a', { href: file, download: 'cutting-plan.pdf' }).click();
    setTimeout(() => URL.revokeObjectURL(file), 10_000);
  } catch (error) {
    failed(error);
  }
}

function add() {
  const taken = new Set(rows().map((row) => row.querySelector('[name=id]').value));
  let n = rows().length + 1;
  while (taken.has(`P${n}`)) n += 1;
  const others = rows().map(panelOf);
  $('panels').append(rowOf({ id: `P${n}`, count: 1, size: { across: '50 cm', along: '50 cm' }, allow: '15 mm' }, others, take));
  $('panels').lastElementChild.querySelector('[name=id]').focus();
  plan();
}

async function begin() {
  let known;
  try {
    known = await kinds();
  } catch (error) {
    failed(error);
    return;
  }
  const fields = () => showKind(known.find((k) => k.kind === $('kind').value), $('measures'), $('options'));
  listKinds($('kind'), known, 'carver');
  fields();
  $('kind').addEventListener('change', fields);
  $('fill').addEventListener('click', fill);
  $('add').addEventListener('click', add);
  $('pdf').addEventListener('click', download);
  form.addEventListener('input', (event) => {
    if (!event.target.closest('#panels') && !event.target.id.startsWith('cloth-')) return;
    plan();
  });
  form.addEventListener('submit', (event) => event.preventDefault());
  await fill();
}

begin();
