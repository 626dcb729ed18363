// What every test here needs: the service itself, a page of another origin, a
// real browser, and axe.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const binary = process.env.BRIDLETIE_BINARY ?? here('../../../out/bridletie');
const axe = await readFile(here('node_modules/axe-core/axe.min.js'), 'utf8');

/** The sizes at which every page is tried. */
export const sizes = [{ width: 360, height: 740 }, { width: 1440, height: 900 }];

/** Starts the service on a free port. */
export async function startService(...flags) {
  const child = spawn(binary, ['serve', '--addr', '127.0.0.1:0', '--metrics-addr', 'off', '--drain', '0s', ...flags], { stdio: ['ignore', 'ignore', 'pipe'] });
  const lines = createInterface({ input: child.stderr });
  const origin = await new Promise((resolve, reject) => {
    const said = [];
    lines.on('line', (line) => {
      said.push(line);
      const entry = line.startsWith('{') ? JSON.parse(line) : {};
      if (entry.what === 'service') resolve(`http://${entry.addr}`);
    });
    child.on('error', reject);
    child.on('exit', () => reject(new Error(`the service ended: ${said.join('\n')}`)));
  });
  return {
    origin,
    async stop() {
      if (child.exitCode !== null) return;
      child.kill('SIGTERM');
      await once(child, 'exit');
    },
  };
}

/**
 * A site of another origin. Its pages are functions of the request that return
 * the headers and the body.
 */
export async function startSite(pages) {
  const server = createServer(async (request, response) => {
    const { pathname } = new URL(request.url, 'http://site');
    const page = pages[pathname];
    if (!page) return response.writeHead(404).end();
    const chunks = [];
    for await (const chunk of request) chunks.push(chunk);
    const { status = 200, headers = {}, body = '' } = page({ headers: request.headers, body: Buffer.concat(chunks).toString() });
    response.writeHead(status, headers).end(body);
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    origin: `http://127.0.0.1:${server.address().port}`,
    stop() {
      server.closeAllConnections();
      server.close();
    },
  };
}

export function startBrowser() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
  });
}

/**
 * A page in a context of its own, which notes what goes wrong on it: errors,
 * and what its policy refused.
 */
export async function openPage(browser, options = {}) {
  const context = await browser.newContext({ locale: 'en-GB', reducedMotion: 'reduce', ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(15000);
  await page.addInitScript(() => {
    const estimates = (globalThis.estimates = { raised: 0, seen: 0, first: 0 });
    document.addEventListener('bridletie-estimate', () => {
      estimates.raised++;
      estimates.first ||= performance.now();
    });
  });
  const wrong = [];
  page.on('pageerror', (error) => wrong.push(String(error)));
  page.on('console', (message) => {
    const text = message.text();
    // A status that the page handles is not an error of the page.
    if (message.type() === 'error' && !text.startsWith('Failed to load resource')) wrong.push(text);
  });
  return { context, page, wrong };
}

/** What axe finds on the page as it is: nothing, or a test fails with it. Rules are named to leave out. */
export async function violations(page, ...without) {
  await page.evaluate(axe);
  const found = await page.evaluate((ids) => globalThis.axe.run(document, {
    resultTypes: ['violations'], rules: Object.fromEntries(ids.map((id) => [id, { enabled: false }])),
  }), without);
  return found.violations.map((v) => `${v.id} (${v.impact}): ${v.help}: ${v.nodes.map((n) => `${n.target.flat().join(' ')} ${n.failureSummary}`).join(' | ')}`);
}

/** The id of the element that has the focus, in whatever shadow it is. */
export function focused(page) {
  return page.evaluate(() => {
    let at = document.activeElement;
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
    return at?.id || at?.tagName || '';
  });
}

/** Presses Tab until the element with that id has the focus. */
export async function tabTo(page, id, key = 'Tab') {
  for (let n = 0; n < 80; n++) {
    if (await focused(page) === id) return;
    await page.keyboard.press(key);
  }
  throw new Error(`80 times ${key}, and ${id} has not the focus`);
}

/** The summary of the next estimate after the last that was asked for here. */
export async function nextSummary(page) {
  await page.waitForFunction(() => {
    const { raised = 0, seen = 0 } = globalThis.estimates ?? {};
    if (raised <= seen || document.querySelector('bridletie-quote').shadowRoot.querySelector('.stale')) return false;
    globalThis.estimates.seen = raised;
    return true;
  });
  return page.locator('bridletie-quote #status').first().textContent();
}
