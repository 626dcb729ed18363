// The shop's page and the quote element on it, as its visitors use them.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { focused, nextSummary, openPage, sizes, startBrowser, startService, tabTo, violations } from './service.mjs';

let service;
let browser;
before(async () => {
  service = await startService();
  browser = await startBrowser();
});
after(async () => {
  await browser?.close();
  await service?.stop();
});

const shop = () => `${service.origin}/demo/shop`;

for (const viewport of sizes) {
  const at = `at ${viewport.width} x ${viewport.height}`;

  test(`filled in by keyboard alone ${at}`, async () => {
    const { context, page, wrong } = await openPage(browser, { viewport });
    await page.goto(shop());
    await page.keyboard.press('Tab');
    assert.equal(await page.evaluate(() => document.activeElement.textContent), 'To the estimate');
    await page.keyboard.press('Enter');
    let summary = await nextSummary(page);
    assert.match(summary, /^Likely £[\d,]+, between £[\d,]+ and £[\d,]+\.$/);
    assert.deepEqual(await violations(page), [], 'with an estimate');

    await tabTo(page, 'kind');
    await page.keyboard.type('thr');
    let next = await nextSummary(page);
    assert.equal(await page.locator('#kind').inputValue(), 'three-seat-settee');
    assert.notEqual(next, summary);
    summary = next;

    await tabTo(page, 'size-usual');
    await page.keyboard.press('ArrowRight');
    summary = await nextSummary(page);
    assert.equal(await page.locator('#size-large').isChecked(), true);

    await tabTo(page, 'cloth');
    await page.keyboard.type('Her');
    summary = await nextSummary(page);
    assert.equal(await page.locator('#openCloth').isVisible(), false);
    await page.keyboard.press('Home');
    summary = await nextSummary(page);

    await tabTo(page, 'low');
    await page.keyboard.type('24,50');
    summary = await nextSummary(page);

    await tabTo(page, 'SUMMARY');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    assert.equal(await page.locator('#measures').getAttribute('open'), '');
    await tabTo(page, 'm-seat-width');
    await page.keyboard.type('13');
    const error = page.locator('#m-seat-width-error');
    await error.filter({ hasText: 'from 130\u00a0cm to 240\u00a0cm' }).waitFor();
    const field = page.locator('#m-seat-width');
    assert.equal(await field.getAttribute('aria-invalid'), 'true');
    assert.match(await field.getAttribute('aria-describedby'), /m-seat-width-error/);
    assert.equal(await focused(page), 'm-seat-width', 'the focus stays where it is typed');
    assert.match(await page.locator('#status').textContent(), /Seat width/);
    assert.equal(await page.locator('svg.measuring .m.on text').textContent(), 'A');
    assert.deepEqual(await violations(page), [], 'with a fault');

    // Sending leads to the field that is at fault.
    await tabTo(page, 'send');
    await page.keyboard.press('Enter');
    assert.equal(await focused(page), 'm-seat-width');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('181,5');
    summary = await nextSummary(page);
    assert.equal(await error.textContent(), '');
    assert.equal(await field.getAttribute('aria-invalid'), null);

    await tabTo(page, 'email');
    await page.keyboard.type('customer@example.com');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.locator('#received').waitFor();
    const sent = JSON.parse(await page.locator('#received pre').textContent());
    assert.equal(sent.request.measures['seat-width'], '181.5 cm');
    assert.equal(sent.request.price.low, '24.50');
    assert.equal(sent.contact.email, 'customer@example.com');
    assert.ok(sent.estimate.order.likely.mm > 0);
    assert.equal(await page.locator('#sent').textContent(), '', 'the page took it');
    assert.deepEqual(await violations(page), [], 'once it is sent');
    assert.deepEqual(wrong, []);
    await context.close();
  });

  test(`language and units ${at}`, async () => {
    const { context, page, wrong } = await openPage(browser, { viewport });
    await page.goto(`${shop()}#quote`);
    let summary = await nextSummary(page);
    await page.getByText('Measures you have taken').click();
    await page.locator('#m-back-height').fill('80');
    summary = await nextSummary(page);

    await page.locator('#language').selectOption('de-DE');
    const german = await page.locator('#status').textContent();
    assert.match(german, /^Voraussichtlich [\d.]+\u00a0£, zwischen/);
    assert.equal(await page.getByLabel(/^[A-Z] Rückenhöhe/).inputValue(), '80');
    assert.equal(await page.locator('#measures').getAttribute('open'), '', 'what was open stays open');
    assert.deepEqual(await violations(page), [], 'in German');

    await page.getByText('Zoll', { exact: true }).click();
    await page.getByText('yd', { exact: false }).first().waitFor();
    assert.equal(await page.getByLabel(/^[A-Z] Rückenhöhe/).inputValue(), '31,5');
    assert.equal(await page.locator('#status').textContent(), german, 'the price is that of the same lengths');

    await page.locator('#language').selectOption('fr-FR');
    assert.match(await page.locator('#status').textContent(), /^Probablement [\d\u202f\u00a0]+£GB, entre|^Probablement [\d\u202f\u00a0]+£, entre/);
    assert.equal(await page.getByLabel(/^[A-Z] Hauteur du dossier/).inputValue(), '31,5');
    assert.deepEqual(await violations(page), [], 'in French');
    await page.getByText('centimètres', { exact: true }).click();
    assert.equal(await page.getByLabel(/^[A-Z] Hauteur du dossier/).inputValue(), '80', 'back and forth changes nothing');
    assert.deepEqual(wrong, []);
    await context.close();
  });
}

test('in dark colours, in forced colours, without a piece', async () => {
  // Under forced colours the colours are the reader's own, and what a style
  // computes to is not what is seen.
  for (const [options, ...without] of [[{ colorScheme: 'dark' }], [{ forcedColors: 'active' }, 'color-contrast']]) {
    const { context, page } = await openPage(browser, { viewport: sizes[1], ...options });
    await page.goto(`${shop()}#quote`);
    const summary = await nextSummary(page);
    await page.getByText('Measures you have taken').click();
    await page.locator('#m-seat-width').fill('1');
    await page.locator('[aria-invalid]').waitFor();
    assert.deepEqual(await violations(page, ...without), [], JSON.stringify(options));
    await page.locator('#kind').selectOption('');
    assert.equal(await page.locator('#status').textContent(), 'Choose a piece, and the estimate appears here.');
    assert.deepEqual(await violations(page, ...without), [], `no piece, ${JSON.stringify(options)}`);
    assert.notEqual(summary, '');
    await context.close();
  }
});

test('narrow, with large text, and with targets that a thumb can hit', async () => {
  for (const [viewport, text] of [[{ width: 320, height: 640 }, '100%'], [{ width: 640, height: 800 }, '200%']]) {
    const { context, page } = await openPage(browser, { viewport });
    await page.goto(`${shop()}#quote`);
    await page.evaluate((size) => { document.documentElement.style.fontSize = size; }, text);
    await nextSummary(page);
    await page.getByText('Measures you have taken').click();
    await page.getByText('Style', { exact: true }).click();
    const beyond = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(beyond <= 0, `at ${viewport.width} the page is ${beyond} px too wide`);
    const small = await page.evaluate(() => {
      const root = document.querySelector('bridletie-quote').shadowRoot;
      return [...root.querySelectorAll('select, summary, button, .choice, input[type=text]')]
        .filter((e) => e.checkVisibility()).map((e) => [e.id || e.textContent, e.getBoundingClientRect()])
        .filter(([, box]) => box.height < 44 || box.width < 44).map(([id, box]) => `${id} ${box.width} x ${box.height}`);
    });
    assert.deepEqual(small, []);
    await context.close();
  }
});

test('what has the focus is never hidden behind the summary', async () => {
  const { context, page } = await openPage(browser, { viewport: sizes[0] });
  await page.goto(`${shop()}#quote`);
  await nextSummary(page);
  await page.getByText('Measures you have taken').click();
  await page.getByText('Style', { exact: true }).click();
  await page.locator('#kind').focus();
  let seen = 0;
  for (const key of ['Tab', 'Shift+Tab']) {
    for (let n = 0; n < 45; n++) {
      const hidden = await page.evaluate(() => {
        let at = document.activeElement;
        while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
        const quote = document.querySelector('bridletie-quote');
        if (at?.getRootNode() !== quote.shadowRoot) return '';
        const box = at.getBoundingClientRect();
        for (const y of [box.top + 2, box.bottom - 2]) {
          const top = quote.shadowRoot.elementFromPoint(box.left + box.width / 2, y);
          if (top !== at && !at.contains(top) && !top?.contains(at)) return `${at.id}: ${top?.id || top?.tagName} lies over it`;
        }
        return 'seen';
      });
      if (hidden === 'seen') seen++;
      else assert.equal(hidden, '');
      await page.keyboard.press(key);
    }
  }
  assert.ok(seen > 50, `${seen} stops were seen`);
  await context.close();
});

test('without JavaScript the shop still says how to ask', async () => {
  const { context, page } = await openPage(browser, { viewport: sizes[0], javaScriptEnabled: false });
  await page.goto(shop());
  const link = page.getByRole('link', { name: 'workroom@harbour-lane.example' });
  await link.waitFor();
  assert.equal(await page.getByText('Ask us for an estimate.').isVisible(), true);
  await context.close();
});

test('what the page weighs, and how soon the first estimate is there', async () => {
  const { context, page } = await openPage(browser, { viewport: sizes[1] });
  const session = await context.newCDPSession(page);
  await session.send('Network.enable');
  const loads = new Map();
  session.on('Network.responseReceived', (e) => loads.set(e.requestId, { path: new URL(e.response.url).pathname, bytes: 0 }));
  session.on('Network.loadingFinished', (e) => { if (loads.has(e.requestId)) loads.get(e.requestId).bytes = e.encodedDataLength; });
  await page.goto(`${shop()}#quote`);
  await nextSummary(page);
  await page.waitForTimeout(300);
  const list = [...loads.values()].sort((a, b) => b.bytes - a.bytes);
  const total = list.reduce((sum, one) => sum + one.bytes, 0);
  const first = await page.evaluate(() => globalThis.estimates.first);
  console.log(`page weight ${(total / 1000).toFixed(1)} kB in ${list.length} requests: ${list.map((l) => `${l.path} ${(l.bytes / 1000).toFixed(1)}`).join(', ')}`);
  console.log(`first estimate ${first.toFixed(0)} ms after the page was asked for`);
  assert.ok(total < 120000, `${total} bytes`);
  assert.ok(list.length <= 12, `${list.length} requests`);
  await context.close();
});
