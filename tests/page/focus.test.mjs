// SPDX-License-Identifier: MIT
// Views, the wider choice and other windows' edits arrive while somebody types or goes along a list: nobody loses their place.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Server, field, makeJob, onPage, openJob, revision } from './support.mjs';

const server = new Server();
let page, id;

onPage(server, async (opened) => {
    page = opened;
    id = await makeJob(server, 'example:sports-hall');
    await openJob(page, server, id);
});

/** Another window's edit; resolves when this page shows its view. */
async function elsewhere(path, value) {
    const { revision: was } = await server.api('GET', `jobs/${id}`);
    const answer = await server.api('PATCH', `jobs/${id}`, { revision: was, edits: [{ path, value }] });
    assert.equal(answer.error, undefined);
    await page.waitForFunction((r) => performance.getEntriesByName('shown').some((one) => one.detail === r), answer.revision);
    await page.waitForFunction((r) => Number(document.querySelector('.cell.revision .cell-name').textContent.replace(/\D/g, '')) === r, answer.revision);
}

const searched = () => page.waitForFunction(() => !document.querySelector('.search button') && document.querySelectorAll('.choice-table tbody tr').length > 3, null, { timeout: 90_000 });

const caret = () => page.evaluate(() => ({ field: document.activeElement?.dataset.field, text: document.activeElement?.value, at: document.activeElement?.selectionStart }));

test('text half typed, focus and caret stay while views, the wider choice and another window’s edits arrive', async () => {
    await field(page, 'supply.pressure').focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('61.5 ps');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    const mine = { field: 'supply.pressure', text: '61.5 ps', at: 5 };
    assert.deepEqual(await caret(), mine);
    await elsewhere(['preferences', 'labour-rate'], 131);
    assert.deepEqual(await caret(), mine, 'a view');
    await searched();
    assert.deepEqual(await caret(), mine, 'the wider choice');
    await elsewhere(['supply', 'pressure'], '70 psi');
    assert.deepEqual(await caret(), mine, 'another window’s edit of the very field');
    await page.keyboard.press('End');
    await page.keyboard.type('i');
    await page.keyboard.press('Enter');
    await page.locator('[data-saved]').waitFor();
    await page.waitForFunction(async (job) => (await (await fetch(`api/jobs/${job}`)).json()).survey.supply.pressure === '61.5 psi', id);
});

test('what is typed on while an edit is on its way stays', async () => {
    let hold;
    const held = new Promise((done) => (hold = done));
    await page.route('**/api/jobs/*', async (route) => {
        if (route.request().method() === 'PATCH') await held;
        await route.continue();
    });
    const was = await revision(page);
    await field(page, 'supply.pressure').focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('62 psi');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('63');
    hold();
    await page.waitForFunction((n) => Number(document.querySelector('.cell.revision .cell-name').textContent.replace(/\D/g, '')) > n, was);
    assert.deepEqual(await caret(), { field: 'supply.pressure', text: '63', at: 2 });
    await page.unroute('**/api/jobs/*');
    await page.keyboard.press('Escape');
    assert.equal((await caret()).text, '62 psi');
});

const held = () => page.evaluate(() => ({ on: document.activeElement?.dataset.hold, top: Math.round(document.activeElement?.getBoundingClientRect().top ?? 0) }));
const order = (selector) => page.locator(selector).evaluateAll((all) => all.map((one) => one.dataset.hold));

test('going along the proof, a check keeps the focus where the order changes, and its height on the screen', async () => {
    const was = await order('a.check');
    await page.locator('a.check[data-check="water.hardness"]').focus();
    await elsewhere(['supply', 'hardness'], '900 mg/L'); // harder than a heater bears
    assert.equal((await held()).on, 'water.hardness', 'it comes first now, and takes the focus along');
    assert.ok((await order('a.check')).indexOf('water.hardness') < was.indexOf('water.hardness'));
    await page.keyboard.press('ArrowDown');
    assert.ok(![undefined, 'water.hardness'].includes((await held()).on), 'and one goes on from there');

    await page.locator('a.check[data-check^="gas.pressure."]').last().focus();
    const mine = await held();
    await elsewhere(['supply', 'hardness'], '60 mg/L');
    const now = await held();
    assert.equal(now.on, mine.on);
    assert.ok(Math.abs(now.top - mine.top) <= 2, `${mine.top} then ${now.top}`);
});

test('in the alternatives the button keeps the focus where the order changes', async () => {
    await searched();
    const was = await order('.choice-table button.link');
    const pin = page.locator('.choice-table tbody tr', { hasText: 'rack' }).first().getByRole('button', { name: /^Pin/ });
    await pin.focus();
    const { on } = await held();
    await elsewhere(['preferences', 'labour-rate'], 400);
    await page.waitForFunction(
        (old) => JSON.stringify([...document.querySelectorAll('.choice-table button.link')].map((one) => one.dataset.hold)) !== old,
        JSON.stringify(was), { timeout: 90_000 },
    );
    assert.equal((await held()).on, on);
});

test('the search says how far it is and is stopped', async () => {
    await elsewhere(['preferences', 'labour-rate'], 90);
    await page.locator('.search').getByRole('button', { name: 'Stop' }).click();
    await page.getByText('The search was stopped.').waitFor();
});

test('a better layout is offered, not put there unasked; one click takes it', async () => {
    await elsewhere(['preferences', 'arrangement'], 'wall');
    await searched();
    const answer = await server.api('PATCH', `jobs/${id}`, { revision: (await server.api('GET', `jobs/${id}`)).revision, edits: [{ path: ['preferences', 'arrangement'], remove: true }] });
    const offer = page.locator('[data-better]');
    await offer.waitFor({ timeout: 90_000 });
    const shown = async () => (await server.api('GET', `jobs/${id}/view`)).layout.id;
    assert.match(await shown(), /^wall/);
    assert.match(await offer.innerText(), /^A better layout was found: .*rack.* it costs \$[\d,]+ (less|more)\./i);
    await offer.getByRole('button', { name: 'Take it' }).click();
    await offer.waitFor({ state: 'detached' });
    await page.waitForFunction(() => document.querySelector('.choice-table tr.here .tag'));
    assert.match(await shown(), /^rack/);
    assert.equal((await server.api('GET', `jobs/${id}`)).revision, answer.revision, 'nothing is stored by it');
    assert.deepEqual(page.complaints, []);
});
