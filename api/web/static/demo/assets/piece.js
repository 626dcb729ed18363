// The part of a form that says what piece of furniture it is: kind, measures and
// choices of style, as the service lists them.
import { make, read } from '/demo/assets/ask.js';

/** What the service knows of kinds of furniture. */
export async function kinds() {
  return (await read('/v1/furniture')).kinds;
}

/** Fills a list with the kinds, by name. */
export function listKinds(select, all, first) {
  const sorted = [...all].sort((a, b) => a.name.localeCompare(b.name));
  select.replaceChildren(...sorted.map((k) => make('option', { value: k.kind, selected: k.kind === first }, k.name)));
}

/** Shows the fields of a kind: its measures, and its choices. */
export function showKind(kind, measures, options) {
  measures.replaceChildren(
    ...kind.measures.map((m) =>
      make('div', { class: 'field' }, make('label', {}, m.name,
        make('small', {}, m.how),
        make('input', { name: `measure:${m.measure}`, placeholder: `usually ${m.typical.text}`, autocomplete: 'off' })))),
  );
  options.replaceChildren(
    ...(kind.options || []).map((o) =>
      make('div', { class: 'field' }, make('label', {}, o.name,
        make('select', { name: `option:${o.option}` },
          make('option', { value: '' }, 'as usual'),
          ...o.choices.map((c) => make('option', { value: c.choice }, c.name)))))),
  );
}

/** The request for a cutting list that a form describes. Fields left empty are left out. */
export function pieceOf(form, kind) {
  const request = { kind, measures: {}, options: {} };
  for (const [name, value] of new FormData(form)) {
    const given = value.trim();
    const [what, id] = name.split(':');
    if (!id || !given) continue;
    if (what === 'measure') request.measures[id] = withUnit(given);
    if (what === 'option') request.options[id] = given;
  }
  return request;
}

/** A bare number is centimetres here, and a comma is a decimal sign; the form says so. */
export function withUnit(text) {
  return /^\d+([.,]\d+)?$/.test(text) ? `${text.replace(',', '.')} cm` : text;
}
