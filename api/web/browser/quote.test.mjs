// The quote element on a page of another origin, under a strict policy, and when
// things go wrong.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after, afterEach, before, test } from 'node:test';
import { focused, nextSummary, openPage, sizes, startBrowser, startService, startSite, tabTo, violations } from './service.mjs';

let service;
let browser;
let site;
const received = [];

/** The guide's line, with the service of this test in the place of the shop's. */
async function embed() {
  const guide = await readFile(new URL('../guide/element.md', import.meta.url), 'utf8');
  const line = guide.match(/^<script type="module" src="https:\/\/[^/"]+(\/quote\/[^"]+)" integrity="[^"]+" crossorigin="anonymous"><\/script>$/m);
  assert.ok(line, 'the guide has the line');
  return line[0].replace(/https:\/\/[^/"]+/, service.origin);
}

const fallback = '<p>Ask us: <a href="mailto:workroom@harbour-lane.example">write to the workroom</a></p>';

/** A page of the shop: what the guide says that it needs, and nothing more. */
const page = (body, policy = `default-src 'self'; script-src 'self' ${service.origin}; connect-src 'self' ${service.origin}`) => ({
  headers: { 'Content-Type': 'text/html; charset=utf-8', 'Content-Security-Policy': policy },
  body: `<!doctype html><html lang="en"><head><title>A shop</title></head><body><main><h1>A shop</h1>${body}</main></body></html>`,
});

const element = (attributes = '', within = fallback) => `<bridletie-quote kind="carver" ${attributes}>${within}</bridletie-quote>`;

before(async () => {
  service = await startService('--allow-origin', '*');
  browser = await startBrowser();
  const script = await embed();
  site = await startSite({
    '/': () => page(`${script}${element('currency="GBP" labour="38" cloths="/cloths.json" send-to="/inbox"')}`),
    '/plain': () => page(script + element()),
    '/two': () => page(`<div>${element('language="de"')}</div>${element('kind="footstool" units="imperial"')}${script}`),
    '/loud': () => ({ headers: { 'Content-Type': 'text/html' }, body: `<!doctype html><html lang="en"><title>Loud</title><style>
      * { font: 40px/3 fantasy !important; margin: 50px; padding: 50px; border: 9px dotted red; float: left; position: relative }
      input, select, button { display: none !important } bridletie-quote { float: none; --bridletie-accent: #7a1f5c; }
      bridletie-quote::part(send) { border-radius: 0 }</style>${script}${element()}` }),
    '/typo': () => page(script + element('kind="hammock"')),
    '/badhash': () => page(script.replace(/sha384-..../, 'sha384-AAAA') + element()),
    '/refused': () => page(script + element(), `default-src 'self'; script-src 'self' ${service.origin}`),
    '/off': () => page(script + element('endpoint="http://127.0.0.1:9"')),
    '/cloths.json': () => ({
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ cloths: [
        { cloth: { name: 'Slipway plain', width: '145 cm', soldBy: '0.1 m' }, price: { amount: '29.00', currency: 'GBP', per: 'm' } },
        { cloth: { name: 'Ribbon', width: '3 cm' } },
      ] }),
    }),
    '/inbox': (request) => {
      received.push(request);
      return { status: received.length > 1 ? 500 : 204 };
    },
    '/favicon.ico': () => ({ status: 204 }),
  });
});
after(async () => {
  await browser?.close();
  site?.stop();
  await service?.stop();
});

/** Opens a page of the site; what its policy refuses is noted. */
async function visit(path, options = {}) {
  const opened = await openPage(browser, { viewport: sizes[0], ...options });
  contexts.push(opened.context);
  await opened.page.addInitScript(() => {
    globalThis.refused = [];
    document.addEventListener('securitypolicyviolation', (e) => globalThis.refused.push(`${e.violatedDirective} ${e.blockedURI}`));
  });
  opened.refused = () => opened.page.evaluate(() => globalThis.refused);
  if (options.before) await options.before(opened.page);
  await opened.page.goto(site.origin + path);
  return opened;
}
const contexts = [];
afterEach(async () => {
  while (contexts.length) await contexts.pop().close();
});

for (const viewport of sizes) {
  test(`another origin, strict policy, the guide's line, at ${viewport.width} x ${viewport.height}`, async () => {
    received.length = 0;
    const asked = [];
    const { page, context, wrong, refused } = await visit('/', { viewport, before: (page) => page.on('request', (r) => asked.push(r)) });
    const summary = await nextSummary(page);
    assert.match(summary, /^Likely £/);
    await page.locator('bridletie-quote svg').waitFor();
    await page.getByLabel('Cloth', { exact: true }).selectOption('Slipway plain');
    assert.notEqual(await nextSummary(page), summary);
    await tabTo(page, 'send');
    await page.keyboard.press('Enter');
    await page.getByText('Sent to the workroom.').waitFor();
    const sent = JSON.parse(received[0].body);
    assert.equal(sent.request.cloth.name, 'Slipway plain');
    assert.equal(sent.request.price.per, 'm');
    assert.ok(Number(sent.estimate.price.likely.amount) > 0);
    assert.deepEqual(sent.contact, {});
    await page.getByRole('button', { name: 'Send to the workroom' }).click();
    await page.getByText('This could not be sent.').waitFor();

    assert.deepEqual(await violations(page), []);
    assert.deepEqual(await refused(), [], 'the policy refused nothing');
    assert.deepEqual(wrong, []);
    // Nothing is kept, no other host is asked, and nobody is told who asks.
    assert.deepEqual(await context.cookies(), []);
    assert.deepEqual(await page.evaluate(() => [localStorage.length, sessionStorage.length, document.cookie]), [0, 0, '']);
    const hosts = new Set([new URL(site.origin).host, new URL(service.origin).host]);
    for (const r of asked) {
      assert.ok(hosts.has(new URL(r.url()).host), r.url());
      const headers = await r.allHeaders();
      assert.equal(headers.cookie, undefined);
      if (r.url().startsWith(service.origin) && r.resourceType() === 'fetch') assert.equal(headers.referer, undefined, r.url());
    }
  });
}

test('a page may listen, add to what is sent, and keep it from being posted', async () => {
  received.length = 0;
  const { page } = await visit('/');
  await nextSummary(page);
  const detail = await page.evaluate(() => new Promise((resolve) => {
    document.addEventListener('bridletie-send', (e) => {
      e.preventDefault();
      resolve({ ...e.detail, composed: e.composed, bubbles: e.bubbles });
    });
    document.querySelector('bridletie-quote').shadowRoot.getElementById('send').click();
  }));
  assert.equal(detail.request.kind, 'carver');
  assert.equal(detail.composed && detail.bubbles, true);
  await page.waitForTimeout(200);
  assert.equal(received.length, 0);
  const quote = await page.evaluate(() => document.querySelector('bridletie-quote').quote);
  assert.deepEqual(quote.request, detail.request);
});

test('where nobody takes it, it is not said to be sent', async () => {
  const { page } = await visit('/plain');
  await nextSummary(page);
  await page.getByRole('button', { name: 'Send to the workroom' }).click();
  await page.getByText('This could not be sent.').waitFor();
});

test('what is sent is what the form says, also when it is sent at once', async () => {
  received.length = 0;
  const { page } = await visit('/');
  await nextSummary(page);
  await page.getByText('Measures you have taken').click();
  await page.locator('#m-seat-width').fill('60');
  await page.evaluate(() => document.querySelector('bridletie-quote').shadowRoot.getElementById('send').click());
  await page.getByText('Sent to the workroom.').waitFor();
  assert.equal(JSON.parse(received[0].body).request.measures['seat-width'], '60 cm');
  await page.locator('#m-seat-depth').fill('1');
  await page.evaluate(() => document.querySelector('bridletie-quote').shadowRoot.getElementById('send').click());
  await page.locator('#m-seat-depth[aria-invalid=true]:focus').waitFor();
  assert.equal(received.length, 1);
});

test('nothing is asked before the element is nearly in sight', async () => {
  const asked = [];
  const { page } = await openPage(browser, { viewport: sizes[0] });
  contexts.push(page.context());
  page.on('request', (r) => asked.push(new URL(r.url()).pathname));
  await page.goto(`${site.origin}/plain`);
  await nextSummary(page);
  assert.equal(asked.filter((p) => p === '/v1/estimate').length, 1);
  asked.length = 0;
  await page.goto('about:blank');
  await page.addInitScript(() => document.addEventListener('DOMContentLoaded', () => { document.body.firstElementChild.style.paddingTop = '3000px'; }));
  await page.goto(`${site.origin}/plain`);
  await page.waitForTimeout(400);
  assert.deepEqual(asked.filter((p) => p.startsWith('/v1/')), []);
  await page.locator('bridletie-quote').scrollIntoViewIfNeeded();
  await nextSummary(page);
});

test('an older answer never replaces a newer one', async () => {
  const { page } = await visit('/plain');
  await nextSummary(page);
  let n = 0;
  const bodies = [];
  await page.route('**/v1/estimate', async (route) => {
    const slow = n++ === 0;
    bodies.push(route.request().postDataJSON());
    const answer = await route.fetch();
    if (slow) await new Promise((resolve) => setTimeout(resolve, 900));
    await route.fulfill({ response: answer }).catch(() => {}); // the first is no longer wanted
  });
  await page.getByLabel('small', { exact: true }).check();
  await page.waitForTimeout(150);
  await page.getByLabel('large', { exact: true }).check();
  const newest = await nextSummary(page);
  await page.waitForTimeout(1200);
  assert.deepEqual(bodies.map((b) => b.size), ['small', 'large']);
  assert.equal(await page.locator('#status').textContent(), newest);
  assert.equal(await page.evaluate(() => document.querySelector('bridletie-quote').quote.request.size), 'large');
});

test('typing asks once, when it has come to rest', async () => {
  const { page } = await visit('/plain');
  await nextSummary(page);
  let n = 0;
  page.on('request', (r) => { if (r.url().endsWith('/v1/estimate') && r.method() === 'POST') n++; });
  await page.getByText('Measures you have taken').click();
  await page.locator('#m-seat-width').pressSequentially('61,25', { delay: 40 });
  await nextSummary(page);
  assert.equal(n, 1);
});

test('lengths may be given in other ways than the units ask for', async () => {
  const { page } = await visit('/plain');
  await nextSummary(page);
  await page.getByText('Measures you have taken').click();
  for (const [typed, sent] of [['61,5', '61.5 cm'], ['610 mm', '610 mm'], ['24 in', '24 in'], ['24 1/2"', '24 1/2 in'], ['2\' 1"', '2 ft 1 in'], [' 60 ', '60 cm']]) {
    await page.locator('#m-seat-width').fill(typed);
    await nextSummary(page);
    assert.equal(await page.evaluate(() => document.querySelector('bridletie-quote').quote.request.measures['seat-width']), sent);
  }
  await page.locator('#m-seat-width').fill('wide');
  await page.getByText('Please give a length, for example').waitFor();
  await page.getByLabel('How many alike').fill('0');
  await page.getByText('Please give a whole number from 1 to 50.').waitFor();
  await page.getByLabel('How many alike').fill('two');
  await page.waitForTimeout(600);
  assert.equal(await page.locator('#count').getAttribute('aria-invalid'), 'true');
  assert.match(await page.locator('#status').textContent(), /How many alike/);
  assert.match(await page.locator('#status').textContent(), /Seat width/);
  assert.deepEqual(await violations(page), []);
});

test('prices are held against the service too', async () => {
  const { page } = await visit('/');
  await nextSummary(page);
  await page.getByLabel('from').fill('30');
  await nextSummary(page);
  await page.getByLabel('to', { exact: true }).fill('20');
  await page.getByText('The upper price lies below the lower one.').waitFor();
  await page.getByLabel('to', { exact: true }).fill('dear');
  await page.getByText('Please give an amount, for example 48.50.').waitFor();
  await page.getByLabel('Cloth', { exact: true }).selectOption('Ribbon');
  await page.getByText('This piece cannot be cut from this cloth.').waitFor();
  assert.equal(await page.locator('#cloth').getAttribute('aria-invalid'), 'true');
  assert.deepEqual(await violations(page), []);
});

test('what would help most is one step away', async () => {
  const { page } = await visit('/plain');
  await nextSummary(page);
  await page.getByLabel('Piece').selectOption('wing-chair');
  await nextSummary(page);
  await page.getByRole('button', { name: 'Choose the cloth' }).click();
  assert.equal(await focused(page), 'pattern-medium');
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('ArrowUp');
  await nextSummary(page);
  const button = page.getByRole('button', { name: /^Measure: / });
  const what = (await button.textContent()).slice('Measure: '.length);
  await button.click();
  const label = await page.evaluate(() => {
    const root = document.querySelector('bridletie-quote').shadowRoot;
    return root.querySelector(`label[for="${root.activeElement.id}"]`).textContent;
  });
  assert.equal(label.slice(2).toLowerCase(), what);
});

test('a busy service is asked once more, later, and then by hand', async () => {
  let n = 0;
  const { page } = await visit('/plain', { before: (page) => page.route('**/v1/estimate', (route) => {
    if (route.request().method() !== 'POST' || ++n === 2) return route.continue();
    return route.fulfill({ status: 503, headers: { 'Retry-After': '1', 'Access-Control-Allow-Origin': '*', 'Access-Control-Expose-Headers': 'Retry-After', 'Content-Type': 'application/problem+json' },
      body: '{"type":"/problems/unavailable","title":"Not now","status":503}' });
  }) });
  await page.getByText('The service is busy. Trying again in 1 s').waitFor();
  await nextSummary(page);
  assert.equal(n, 2);
  n = 2;
  await page.getByLabel('large', { exact: true }).check();
  await page.getByText('The estimate cannot be had just now.').waitFor();
  assert.equal(n, 4);
  assert.equal(await page.getByRole('link', { name: 'write to the workroom' }).isVisible(), true, 'the way to ask is shown again');
  assert.deepEqual(await violations(page), []);
  await page.unroute('**/v1/estimate');
  await page.getByRole('button', { name: 'Try again' }).click();
  await nextSummary(page);
  assert.equal(await page.getByRole('link', { name: 'write to the workroom' }).isVisible(), false);
});

test('where the service cannot be reached, or the page may not ask it, the way to ask is shown', async () => {
  for (const path of ['/off', '/refused']) {
    const { page } = await visit(path);
    await page.getByText('The estimate cannot be had just now.').waitFor();
    assert.equal(await page.getByRole('link', { name: 'write to the workroom' }).isVisible(), true, path);
    assert.deepEqual(await violations(page), [], path);
  }
});

test('without JavaScript, or with a script that is not what it should be, the page keeps its own words', async () => {
  for (const [path, options] of [['/plain', { javaScriptEnabled: false }], ['/badhash', {}]]) {
    const { page } = await openPage(browser, { viewport: sizes[0], ...options });
    contexts.push(page.context());
    await page.goto(site.origin + path);
    await page.waitForTimeout(200);
    assert.equal(await page.getByRole('link', { name: 'write to the workroom' }).isVisible(), true, path);
  }
});

test('a kind that there is not is a fault at its field', async () => {
  const { page } = await visit('/plain');
  await nextSummary(page);
  await page.evaluate(() => document.querySelector('bridletie-quote').setAttribute('kind', 'hammock'));
  await page.locator('#kind[aria-invalid=true]').waitFor();
  assert.deepEqual(await violations(page), []);
});

test('two on a page, each by itself; put in and taken out a hundred times', async () => {
  const { page, wrong } = await visit('/two', { viewport: sizes[1] });
  await page.waitForFunction(() => [...document.querySelectorAll('bridletie-quote')].every((q) => q.quote));
  const [first, second] = await page.evaluate(() => [...document.querySelectorAll('bridletie-quote')].map((q) => q.shadowRoot.getElementById('status').textContent));
  assert.match(first, /^Voraussichtlich .*\u00a0m Stoff/);
  assert.match(second, /^Likely .*\u00a0yd of cloth/);
  assert.deepEqual(await violations(page), []);
  await page.locator('bridletie-quote').first().locator('#kind').selectOption('headboard');
  await page.waitForFunction(() => document.querySelector('bridletie-quote').quote?.request.kind === 'headboard');
  const asked = [];
  page.on('request', (r) => asked.push(r.url()));
  await page.evaluate(async () => {
    const q = document.querySelector('bridletie-quote');
    const parent = q.parentElement;
    for (let n = 0; n < 100; n++) {
      q.remove();
      parent.append(q);
    }
  });
  await page.waitForFunction(() => document.querySelector('bridletie-quote').quote?.request.kind === 'headboard');
  await page.waitForTimeout(300);
  assert.ok(asked.filter((url) => url.endsWith('/estimate')).length <= 2, asked.join(' '));
  assert.equal(asked.filter((url) => url.endsWith('/v1/furniture')).length, 0);
  await page.locator('bridletie-quote').first().locator('svg').waitFor();
  assert.match(await page.evaluate(() => document.querySelector('bridletie-quote').shadowRoot.getElementById('status').textContent), /^Voraussichtlich/);
  assert.deepEqual(wrong, []);
});

test('a loud page does not break it, and its theme is taken', async () => {
  const { page } = await visit('/loud', { viewport: sizes[1] });
  await nextSummary(page);
  const seen = await page.evaluate(() => {
    const root = document.querySelector('bridletie-quote').shadowRoot;
    const of = (id) => getComputedStyle(root.getElementById(id));
    return { float: of('kind').float, shown: root.getElementById('kind').checkVisibility(), send: of('send').backgroundColor, round: of('send').borderRadius, again: of('again').borderRadius };
  });
  assert.deepEqual(seen, { float: 'none', shown: true, send: 'rgb(122, 31, 92)', round: '0px', again: '6px' });
});

test('everything is said in every language', async () => {
  const { page } = await visit('/plain');
  await nextSummary(page);
  const { words, names, kinds } = await page.evaluate(async (origin) => {
    const { words, names } = customElements.get('bridletie-quote');
    const { kinds } = await (await fetch(`${origin}/v1/furniture`)).json();
    return { words, names, kinds };
  }, service.origin);
  const keys = Object.keys(words.en).sort();
  assert.deepEqual(Object.keys(words).sort(), ['de', 'en', 'fr']);
  for (const [language, table] of Object.entries(words)) {
    assert.deepEqual(Object.keys(table).sort(), keys, language);
    for (const key of keys) {
      assert.ok(table[key].trim(), `${language} ${key}`);
      const holes = (text) => (text.match(/\{\w+\}/g) ?? []).sort();
      assert.deepEqual(holes(table[key]), holes(words.en[key]), `${language} ${key}`);
    }
  }
  const rows = new Map(names.map((row) => [row[0], row]));
  assert.equal(rows.size, names.length, 'a name stands twice');
  const used = new Set();
  const need = (name, columns) => {
    used.add(name);
    assert.ok(rows.get(name)?.slice(1).filter((text) => text.trim()).length === columns, `${name} has not its ${columns} translations`);
  };
  for (const kind of kinds) {
    need(kind.name, 2);
    for (const m of kind.measures) need(m.name, 4);
    for (const o of kind.options) {
      need(o.name, 2);
      for (const c of o.choices) need(c.name, 2);
    }
  }
  assert.deepEqual([...rows.keys()].filter((name) => !used.has(name)), [], 'what no kind has');
});

test('every note of the estimate is on the page, in every language', async () => {
  const { page } = await visit('/');
  await nextSummary(page);
  await page.getByLabel('Piece', { exact: true }).selectOption('wing-chair');
  await nextSummary(page);
  const { words, names } = await page.evaluate(() => {
    const { words, names } = customElements.get('bridletie-quote');
    return { words, names };
  });
  const elsewhere = ['estimate-no-quotation', 'fire-rules']; // which the paragraph beneath says
  for (const [i, language] of ['en', 'de', 'fr'].entries()) {
    await page.evaluate((l) => document.querySelector('bridletie-quote').setAttribute('language', l), language);
    const { warnings, cautions } = (await page.evaluate(() => document.querySelector('bridletie-quote').quote)).estimate;
    const name = (m) => (i ? names.find((row) => row[0] === m)[i] : m);
    const want = [...warnings, ...cautions].filter((n) => !elsewhere.includes(n.code))
      .map((n) => words[language][n.code].replace('{measures}', (n.params.measures ?? []).map(name).join(', ')));
    assert.ok(want.length >= 4);
    assert.deepEqual(await page.locator('#notes li').allTextContents(), want, language);
    assert.equal(await page.locator('#note').textContent(), words[language].note);
  }
});

test('a note that the element has no words for is shown as the service says it', async () => {
  const { page } = await visit('/plain');
  await nextSummary(page);
  await page.route('**/v1/estimate', async (route) => {
    const answer = await route.fetch();
    const body = await answer.json();
    body.warnings.push({ code: 'estimate-newer', severity: 'note', text: 'something newer is left out', params: {} });
    await route.fulfill({ response: answer, json: body });
  });
  await page.evaluate(() => document.querySelector('bridletie-quote').setAttribute('language', 'de'));
  await page.locator('#kind').selectOption('headboard');
  await nextSummary(page);
  const last = page.locator('#notes li').last();
  assert.equal(await last.textContent(), 'Something newer is left out');
  assert.equal(await last.getAttribute('lang'), 'en');
});

test('every kind has a picture, and its estimate in every language', async () => {
  const { page, wrong } = await visit('/plain', { viewport: sizes[1] });
  await nextSummary(page);
  const kinds = await page.locator('#kind option').evaluateAll((all) => all.map((o) => o.value).filter(Boolean));
  assert.ok(kinds.length >= 18);
  const languages = ['en', 'de', 'fr'];
  for (const [i, kind] of kinds.entries()) {
    const language = languages[i % 3];
    await page.evaluate((l) => document.querySelector('bridletie-quote').setAttribute('language', l), language);
    if (await page.locator('#kind').inputValue() !== kind) {
      await page.locator('#kind').selectOption(kind);
      await nextSummary(page);
    }
    await page.locator('bridletie-quote svg').waitFor();
    const drawn = await page.evaluate(() => {
      const root = document.querySelector('bridletie-quote').shadowRoot;
      return { boxes: root.querySelectorAll('svg .l').length, marks: root.querySelectorAll('svg .m').length, fields: root.querySelectorAll('#measureGrid input').length };
    });
    assert.ok(drawn.boxes > 0, kind);
    assert.equal(drawn.marks, drawn.fields, kind);
  }
  assert.deepEqual(wrong, []);
});
