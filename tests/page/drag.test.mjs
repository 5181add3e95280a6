// SPDX-License-Identifier: MIT
// The plant taken by one of its heaters and put elsewhere, with the mouse.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Server, makeJob, onPage, openJob, revision } from './support.mjs';

const server = new Server();
let page, id;

onPage(server, (opened) => (page = opened));

const placeKept = async () => (await server.api('GET', `jobs/${id}`)).survey.preferences.place;
const readout = () => page.locator('.stage .landing');

/** A job whose plant stands at a place, its picture drawn, moving turned on. */
async function standing(place, look = 'Corner', from = 'example:sports-hall') {
    id = await makeJob(server, from, [{ path: ['preferences', 'place'], value: place }]);
    await page.goto('about:blank');
    await openJob(page, server, id);
    await page.locator('.stage[data-ready]').waitFor();
    await page.waitForFunction(() => performance.getEntriesByName('drawn').length > 0);
    await page.locator('.tools').getByRole('button', { name: look, exact: true }).click();
    const move = page.getByRole('button', { name: 'Move the plant' });
    if ((await move.getAttribute('aria-pressed')) === 'false') await move.click();
    return (await server.api('GET', `jobs/${id}/view`)).layout;
}

/** Where on the screen heaters are seen: the pointer goes over the picture line by line, reading its label, until one line shows those wanted. */
async function heatersSeen(...wanted) {
    const titles = (await server.api('GET', 'words')).heaters.map((one) => one.title);
    const found = await page.evaluate(
        async ([names, numbers]) => {
            const canvas = document.querySelector('.stage canvas');
            const box = canvas.getBoundingClientRect();
            for (let n = 0; n < 24; ++n) {
                const y = box.top + box.height * (0.42 + (n % 2 ? -0.02 : 0.02) * Math.ceil(n / 2));
                const seen = new Map(numbers.map((number) => [number, []]));
                for (let x = box.left + 10; x < box.right - 10; x += 18) {
                    canvas.dispatchEvent(new PointerEvent('pointermove', { clientX: x, clientY: y, bubbles: true }));
                    await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
                    const says = document.querySelector('.stage .tip')?.textContent ?? '';
                    const heater = /· heater (\d+)/.exec(says);
                    if (heater && names.some((name) => says.startsWith(name))) seen.get(Number(heater[1]))?.push(x);
                }
                if ([...seen.values()].every((xs) => xs.length > 0)) return [...seen.values()].map((xs) => [xs[xs.length >> 1], y]);
            }
            return null;
        },
        [titles, wanted],
    );
    if (!found) throw new Error(`heaters ${wanted} are not seen on one line`);
    return found;
}

/** Takes the plant at a point and along a way until `there`; lets go unless told to hold. */
async function carry([x, y], [dx, dy], there = null, steps = 60) {
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let n = 1; n <= steps; ++n) {
        await page.mouse.move(x + dx * n, y + dy * n);
        const says = (await readout().count()) ? await readout().innerText() : '';
        if (there?.test(says)) return says;
    }
    if (there) throw new Error(`not come to ${there}`);
    return readout().innerText();
}

async function walked(then) {
    const was = await page.locator('.cell.revision .cell-name').innerText();
    await then();
    await page.waitForFunction((text) => document.querySelector('.cell.revision .cell-name').innerText !== text, was);
}

async function saved(then) {
    const was = await revision(page);
    await then();
    await page.waitForFunction((n) => Number(document.querySelector('.cell.revision .cell-name').textContent.replace(/\D/g, '')) === n + 1, was).catch(async (error) => {
        throw new Error(`not saved: ${await page.locator('.notices, .stage .landing').allInnerTexts()}`, { cause: error });
    });
    await readout().waitFor({ state: 'detached' });
}

const inches = (says) => {
    const [, feet = '0', rest = '0'] = /(?:(\d+) ft)? ?(?:(\d+) in)? along/.exec(says) ?? [];
    return Number(feet) * 12 + Number(rest);
};

test('along its wall: the readout tells the place, the plant is fitted there, undo brings it back', async () => {
    const start = await standing('wall-1-at-0');
    const says = await carry((await heatersSeen(5))[0], [6, -2], /[1-9] ft/);
    assert.match(says, /^wall 1, .* along$/);
    await saved(() => page.mouse.up());
    assert.equal(await placeKept(), `wall-1-at-${inches(says)}`);
    const { layout } = await server.api('GET', `jobs/${id}/view`);
    assert.equal(layout.id, `wall-1-at-${inches(says)}`);
    assert.ok(layout.banks[0].box[0] > start.banks[0].box[0] + 0.1);
    await walked(() => page.getByRole('button', { name: 'Undo' }).click());
    assert.equal(await placeKept(), 'wall-1-at-0');
});

test('onto another wall', async () => {
    await standing('wall-1-at-0');
    await carry((await heatersSeen(5))[0], [0, 8], /^wall 3, /);
    await saved(() => page.mouse.up());
    assert.match(await placeKept(), /^wall-3-at-/);
    assert.match((await server.api('GET', `jobs/${id}/view`)).layout.id, /^wall-3-at-/);
});

test('where it does not fit nothing changes, and why is said', async () => {
    await standing('wall-1-at-3', 'Corner', 'starter');
    const was = await revision(page);
    const heaters = await page.locator('.cell.heaters b').innerText();
    await carry((await heatersSeen(3))[0], [8, 2], /^wall 4, /); // where the door is
    await page.mouse.up();
    const said = page.locator('.stage .landing', { hasText: 'It does not fit there, so it stays where it was.' });
    await said.waitFor();
    assert.equal(await revision(page), was);
    assert.equal(await placeKept(), 'wall-1-at-3');
    assert.equal(await page.locator('.cell.heaters b').innerText(), heaters, 'the plant is still shown');
});

test('Escape while it is held puts it back; without moving turned on a drag turns the view', async () => {
    await standing('wall-1-at-0');
    const was = await revision(page);
    const [from] = await heatersSeen(3);
    await carry(from, [6, 2], /^wall/);
    await page.keyboard.press('Escape');
    await readout().waitFor({ state: 'detached' });
    await page.mouse.up();
    await page.getByRole('button', { name: 'Move the plant' }).click();
    await page.mouse.move(...from);
    await page.mouse.down();
    await page.mouse.move(from[0] + 60, from[1]);
    assert.equal(await readout().count(), 0);
    await page.mouse.up();
    await page.waitForTimeout(500);
    assert.equal(await revision(page), was);
    assert.equal(await placeKept(), 'wall-1-at-0');
});

test('a rack goes anywhere in the room', async () => {
    const start = await standing('rack-two-sided-1-at-30-58.5', 'Top');
    const says = await carry((await heatersSeen(2))[0], [5, 0], null, 13);
    assert.match(says, /and .* from the room’s low corner$/);
    await saved(() => page.mouse.up());
    const { layout } = await server.api('GET', `jobs/${id}/view`);
    assert.equal(layout.id, await placeKept());
    assert.ok(layout.banks[0].box[0] > start.banks[0].box[0] + 0.05);
    assert.equal(layout.arrangement, start.arrangement);
    assert.deepEqual(page.complaints, []);
});
