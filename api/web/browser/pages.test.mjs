// The order form, the bench and the reference, as their readers use them.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after, before, test } from 'node:test';
import { openPage, sizes, startBrowser, startService, violations } from './service.mjs';

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

/** Goes to a page and says how many bytes it took and when it first showed an answer. */
async function visit(page, path, answered) {
  let bytes = 0;
  page.on('requestfinished', async (r) => {
    bytes += (await r.sizes().catch(() => ({ responseBodySize: 0 }))).responseBodySize;
  });
  const begun = performance.now();
  await page.goto(service.origin + path);
  await answered.waitFor();
  console.log(`${path}: ${Math.round(bytes / 1024)} kB and ${Math.round(performance.now() - begun)} ms to the first answer`);
}

const width = (page) => page.evaluate(() => document.documentElement.scrollWidth);

for (const viewport of sizes) {
  const at = `at ${viewport.width} x ${viewport.height}`;

  test(`a cloth is ranked, chosen and ordered ${at}`, async () => {
    const { context, page, wrong } = await openPage(browser, { viewport });
    await visit(page, '/demo/order', page.locator('#plan svg'));
    const place = page.getByRole('button', { name: 'Place the order' });
    await place.and(page.locator(':enabled')).waitFor();
    const first = await page.locator('#cloths tr').first().getAttribute('data-cloth');
    assert.match(await page.locator('#said').textContent(), /^10 cloths are planned; /);
    assert.deepEqual(await violations(page), [], 'ranked');

    // Another cloth, by keyboard.
    await page.locator('#cloths input').first().focus();
    await page.keyboard.press('ArrowDown');
    await page.locator('#chosen', { hasNotText: first }).waitFor();
    await place.and(page.locator(':enabled')).waitFor();
    const [name, length] = (await page.locator('#chosen').textContent()).split(': ');
    assert.match(length, /^\d+(\.\d+)? m$/);
    assert.match(await page.locator('#plan svg title').first().textContent(), new RegExp(`^Cutting plan: ${name}$`));
    await place.focus();
    await page.keyboard.press('Enter');
    assert.match(await page.locator('#placed').textContent(), new RegExp(`^Noted: ${length} of ${name}, for 1 × club armchair`));

    // Six chairs take more, and the ranking follows.
    await page.getByLabel('How many').fill('6');
    await page.locator('#chosen', { hasNotText: length }).waitFor();
    assert.ok(Number.parseFloat((await page.locator('#chosen').textContent()).split(': ')[1]) > 3 * Number.parseFloat(length));
    assert.equal(await width(page), viewport.width);
    assert.deepEqual(wrong, []);
    await context.close();
  });

  test(`faults stand at their fields ${at}`, async () => {
    const { context, page, wrong } = await openPage(browser, { viewport });
    await visit(page, '/demo/order', page.locator('#plan svg'));
    await page.getByText('Measures:').click();
    const field = page.getByRole('textbox', { name: /^seat width/ });
    await field.fill('13 stone');
    await page.locator('#measures .fault').waitFor();
    assert.equal(await field.getAttribute('aria-invalid'), 'true');
    const note = page.locator(`#${await field.getAttribute('aria-describedby')}`);
    assert.match(await note.textContent(), /Try: a number and mm, cm, m, in, ft or yd/);
    assert.deepEqual(await violations(page), [], 'with a fault');
    await field.fill('62,5');
    await page.locator('#measures .fault').waitFor({ state: 'detached' });
    await page.getByLabel('How many').fill('many');
    await page.locator('.fault', { hasText: 'not a number of pieces' }).waitFor();
    assert.equal(await width(page), viewport.width);
    assert.deepEqual(wrong, []);
    await context.close();
  });

  test(`a plan is drawn as panels are typed, and printed ${at}`, async () => {
    const { context, page, wrong } = await openPage(browser, { viewport });
    await visit(page, '/demo/bench', page.locator('#plan svg'));
    const said = page.locator('#said');
    const before = await said.textContent();
    assert.match(before, /^Order \d/);
    assert.deepEqual(await violations(page), [], 'with a plan');

    await page.getByRole('textbox', { name: 'copies of PAD' }).fill('40');
    await page.waitForFunction((text) => document.getElementById('said').textContent !== text, before);
    assert.match(await said.textContent(), /^Order \d/);
    await page.getByRole('button', { name: 'Add a panel' }).click();
    await page.locator('#plan svg', { hasText: 'P5' }).waitFor();
    await page.getByRole('button', { name: 'take P5 off' }).click();
    await page.locator('#plan svg', { hasNotText: 'P5' }).waitFor();

    // A fault of the service at the field that it is in.
    const across = page.getByRole('textbox', { name: 'size across of SEAT' });
    await across.fill('13 stone');
    await page.locator('#panels .fault').first().waitFor();
    assert.equal(await page.getByRole('button', { name: 'Download the plan as PDF' }).isDisabled(), true);
    assert.deepEqual(await violations(page), [], 'with a fault');
    await across.fill('72');
    await page.locator('#plan svg').waitFor();

    const download = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Download the plan as PDF' }).click();
    const file = await download;
    assert.equal(file.suggestedFilename(), 'cutting-plan.pdf');
    assert.equal((await readFile(await file.path())).subarray(0, 5).toString(), '%PDF-');
    assert.equal(await width(page), viewport.width);
    assert.deepEqual(wrong, []);
    await context.close();
  });

  test(`the bench begins from any kind ${at}`, async () => {
    const { context, page, wrong } = await openPage(browser, { viewport });
    await visit(page, '/demo/bench', page.locator('#plan svg'));
    await page.getByLabel('Kind').selectOption('wing-chair');
    await page.getByLabel('How many').fill('1');
    await page.getByRole('button', { name: 'Put its panels on the bench' }).click();
    await page.getByRole('textbox', { name: 'copies of IB' }).waitFor();
    await page.locator('#plan svg', { hasText: 'inside wing' }).waitFor();
    assert.deepEqual(await violations(page), [], 'with a wing chair');
    assert.equal(await width(page), viewport.width);
    assert.deepEqual(wrong, []);
    await context.close();
  });

  test(`an example of the reference is tried ${at}`, async () => {
    const { context, page, wrong } = await openPage(browser, { viewport });
    await visit(page, '/docs', page.locator('.opblock').first());
    assert.deepEqual(await violations(page), [], 'closed');
    const block = page.locator('.opblock').filter({ hasText: '/v1/repeat' }).first();
    await block.getByRole('button').first().click();
    await block.getByRole('button', { name: 'Execute' }).click();
    await block.locator('.live-responses-table td.response-col_status', { hasText: '200' }).waitFor();
    assert.deepEqual(await violations(page), [], 'tried');
    assert.equal(await width(page), viewport.width);
    assert.deepEqual(wrong, []);
    await context.close();
  });
}

test('without scripts the pages say where to go', async () => {
  const { context, page } = await openPage(browser, { javaScriptEnabled: false });
  for (const path of ['/demo/order', '/demo/bench', '/docs']) {
    await page.goto(service.origin + path);
    assert.match(await page.locator('noscript').innerText(), /script/);
  }
  await context.close();
});
