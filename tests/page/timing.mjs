// SPDX-License-Identifier: MIT
// node timing.mjs [EDITS] [PAUSE]: how long from an edit to its proof, price and picture, with sixteen heaters; page size, first paint, frames.
// Not a test: it prints figures.

import { readFileSync } from 'node:fs';
import { Server, openJob, openPage } from './support.mjs';

const edits = Number(process.argv[2] ?? 200);
const hand = Number(process.argv[3] ?? 120); // milliseconds from the last figure typed to Enter
const server = await new Server().start();
const { browser, page } = await openPage(server);

const at = (list, share) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * share))].toFixed(0);
const row = (name, list) => console.log(`${name.padEnd(34)} p50 ${at(list, 0.5)} ms   p95 ${at(list, 0.95)} ms   most ${Math.max(...list).toFixed(0)} ms`);

const paints = [];
for (let turn = 0; turn < 5; ++turn) {
    await page.goto('about:blank');
    await page.goto(server.address);
    await page.waitForFunction(() => performance.getEntriesByName('first-contentful-paint').length > 0);
    paints.push(await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0].startTime));
}
row('first paint', paints);

const toml = readFileSync(new URL('../../bench/data/sixteen-heaters.toml', import.meta.url), 'utf8');
const { id } = await server.api('POST', 'jobs', { toml });
await openJob(page, server, id);
await page.locator('.stage[data-ready]').waitFor();
await page.waitForFunction(() => performance.getEntriesByName('drawn').length > 0, null, { timeout: 120_000 });
await page.locator('.below').getByRole('button', { name: 'Demand' }).click();
await page.locator('.curve canvas').first().waitFor();
const bytes = await page.evaluate(() => [...performance.getEntriesByType('resource'), ...performance.getEntriesByType('navigation')].filter((one) => !one.name.includes('/api/')).reduce((sum, one) => sum + one.encodedBodySize, 0));
console.log(`${'page, as sent'.padEnd(34)} ${(bytes / 1000).toFixed(0)} kB`);
await page.locator('.below').getByRole('button', { name: 'Alternatives' }).click();
await page.waitForTimeout(8000);

const came = [];
const shown = [];
const drawn = [];
const field = page.locator('.part.given [data-field="supply.pressure"]');
for (let n = 0; n < edits; ++n) {
    const revision = await page.evaluate(() => Number(document.querySelector('.cell.revision .cell-name').textContent.replace(/\D/g, '')));
    await field.fill(`${(61 + (17 * n) / edits).toFixed(3)} psi`);
    await page.waitForTimeout(hand);
    await field.press('Enter');
    const read = (name) => page.waitForFunction(([what, r]) => performance.getEntriesByName(what).find((one) => one.detail > r)?.startTime, [name, revision], { polling: 25, timeout: 120_000 }).then((found) => found.jsonValue());
    const [come, show, draw] = await Promise.all([read('came'), read('shown'), read('drawn')]);
    const start = await page.evaluate(() => performance.getEntriesByName('edit')[0].startTime);
    came.push(come - start);
    shown.push(show - start);
    drawn.push(draw - start);
    await page.waitForTimeout(150);
}
row(`edit to the server's view (${edits})`, came);
row(`edit to proof and price (${edits})`, shown);
row(`edit to picture (${edits})`, drawn);

const frames = await page.evaluate(async () => {
    const canvas = document.querySelector('.stage canvas');
    const out = [];
    for (let turn = 0; turn < 40; ++turn) {
        const start = performance.now();
        canvas.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowLeft', bubbles: true, cancelable: true }));
        await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
        out.push((performance.now() - start) / 2);
    }
    return out;
});
row('a frame while orbiting (software)', frames);
await browser.close();
await server.end();
