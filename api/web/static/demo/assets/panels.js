// One row of the bench's table: a panel as fields, and back.
import { make } from '/demo/assets/ask.js';
import { withUnit } from '/demo/assets/piece.js';

const SIDES = ['top', 'right', 'bottom', 'left'];

/** A whole number of millimetres in centimetres, as they are marked on a tape. */
const inCentimetres = (text) => (/^\d+ mm$/.test(text) ? `${Number.parseInt(text, 10) / 10} cm` : text);

/** An allowance as one field: a length, or four with strokes between. */
function allowText(allow) {
  if (!allow || typeof allow === 'string') return inCentimetres(allow || '');
  const four = SIDES.map((side) => inCentimetres(allow[side] || '0 mm'));
  return new Set(four).size === 1 ? four[0] : four.join(' / ');
}

function allowFrom(text) {
  const parts = text.split('/').map((part) => part.trim());
  if (parts.length !== SIDES.length) return withUnit(text.trim());
  return Object.fromEntries(SIDES.map((side, i) => [side, withUnit(parts[i])]));
}

/** What a panel may ask of the pattern, as choices with a value each. */
function wishes(panel, others) {
  const all = [['free', 'free'], ['across', 'motif in the middle, across'], ['along', 'motif in the middle, along'], ['centred', 'motif in the middle']];
  for (const other of others) {
    if (other.id !== panel.id) all.push([`runs-on ${other.id} bottom`, `runs on below ${other.id}`]);
  }
  const own = wishText(panel.match);
  if (!all.some(([value]) => value === own)) all.push([own, own]);
  return all;
}

function wishText(match) {
  if (!match) return 'free';
  return match.how === 'runs-on' ? `runs-on ${match.from} ${match.edge}` : match.how;
}

function wishFrom(text, was) {
  if (text === 'free') return undefined;
  if (was && wishText(was) === text) return was; // with its motif and all
  const [how, from, edge] = text.split(' ');
  return from ? { how, from, edge } : { how };
}

/** The row of a panel. take is called with the row that is taken off. */
export function rowOf(panel, others, take) {
  const { id, name, count, size, allow, match, ...rest } = panel;
  const field = (key, value, label, extra = {}) => make('input', { name: key, value, 'aria-label': `${label} of ${id}`, ...extra });
  const select = make('select', { name: 'match', 'aria-label': `pattern of ${id}` },
    ...wishes(panel, others).map(([value, text]) => make('option', { value, selected: value === wishText(match) }, text)));
  const off = make('button', { type: 'button', class: 'quiet', 'aria-label': `take ${id} off` }, '×');
  const row = make('tr', {},
    make('td', { 'data-label': 'Panel' }, field('id', id, 'name'), name ? make('small', {}, name) : ''),
    make('td', { 'data-label': 'Copies' }, field('count', String(count ?? 1), 'copies', { inputmode: 'numeric' })),
    make('td', { 'data-label': 'Across' }, field('across', inCentimetres(size.across), 'size across')),
    make('td', { 'data-label': 'Along' }, field('along', inCentimetres(size.along), 'size along')),
    make('td', { 'data-label': 'Allowance' }, field('allow', allowText(allow), 'allowance')),
    make('td', { 'data-label': 'Pattern' }, select),
    make('td', {}, off));
  off.addEventListener('click', () => take(row));
  row.kept = { name, match, rest };
  return row;
}

/** The panel that a row describes. */
export function panelOf(row) {
  const value = (key) => row.querySelector(`[name=${key}]`).value.trim();
  const count = value('count');
  const panel = {
    ...row.kept.rest,
    id: value('id'),
    count: /^\d+$/.test(count) ? Number(count) : count,
    size: { across: withUnit(value('across')), along: withUnit(value('along')) },
  };
  if (row.kept.name) panel.name = row.kept.name;
  if (value('allow')) panel.allow = allowFrom(value('allow'));
  const match = wishFrom(value('match'), row.kept.match);
  if (match) panel.match = match;
  return panel;
}
