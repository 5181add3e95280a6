// SPDX-License-Identifier: MIT
// A room drawn by hand, with the pointer and with typed lengths.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Server, makeJob, onPage, openJob, revision } from './support.mjs';

const server = new Server();
let page, id;

onPage(server, async (opened) => {
    page = opened;
    id = await makeJob(server);
    await openJob(page, server, id);
    await page.locator('.middle').getByRole('button', { name: 'Plan', exact: true }).click();
    await page.locator('svg.board .wall').first().waitFor({ state: 'attached' });
    await page.waitForFunction(() => document.querySelector('svg.board').clientWidth === document.querySelector('.sheet-frame').clientWidth);
});

const survey = async () => (await server.api('GET', `jobs/${id}`)).survey;

async function saved(then) {
    const was = await revision(page);
    await then();
    await page
        .waitForFunction((n) => Number(document.querySelector('.cell.revision .cell-name').textContent.replace(/\D/g, '')) > n, was)
        .catch(async (error) => {
            throw new Error(`not saved: ${await page.locator('.notices, .measures').allInnerTexts()}`, { cause: error });
        });
}

const middleOf = async (selector, index = 0) => {
    const box = await page.locator(selector).nth(index).boundingBox();
    return [box.x + box.width / 2, box.y + box.height / 2];
};

test('a wall is dragged outward, and what is on it goes along', async () => {
    const before = await survey();
    const [x, y] = await middleOf('svg.board .corner', 1);
    const [x2, y2] = await middleOf('svg.board .corner', 2);
    await saved(async () => {
        // between the exhaust and the gas connection
        const there = y + ((y2 - y) * 10) / 14;
        await page.mouse.move((x + x2) / 2, there);
        await page.mouse.down();
        await page.mouse.move((x + x2) / 2 + 20, there, { steps: 4 });
        await page.locator('svg.board .clear text').first().waitFor(); // clear distances while dragging
        await page.mouse.move((x + x2) / 2 + 40, there, { steps: 4 });
        await page.mouse.up();
    });
    const now = await survey();
    assert.notDeepEqual(now.room.plan[1], before.room.plan[1]);
    assert.equal(now.room.plan[1][0], now.room.plan[2][0], 'the wall stays straight');
    assert.equal(now.connections.gas.at[0], now.room.plan[1][0], 'the gas connection is still on it');
});

test('a side is given its length by typing', async () => {
    const [x, y] = await middleOf('svg.board .corner', 0);
    const [x2, y2] = await middleOf('svg.board .corner', 1);
    await page.mouse.click((x + x2) / 2, (y + y2) / 2);
    await saved(async () => {
        await page.getByLabel('length', { exact: true }).fill('24 ft 6 in');
        await page.keyboard.press('Enter');
    });
    const { room } = await survey();
    assert.equal(room.plan[1][0], '24 ft 6 in');
    assert.equal(room.plan[2][0], '24 ft 6 in');
});

test('a door slides along its wall with the pointer, and an obstacle is added, moved by keys and removed', async () => {
    await saved(async () => {
        const [x, y] = await middleOf('svg.board .door .gap');
        await page.mouse.move(x, y);
        await page.mouse.down();
        await page.mouse.move(x, y + 30, { steps: 4 });
        await page.mouse.up();
    });
    const { room } = await survey();
    assert.notEqual(room.door[0].offset, '6 ft');
    assert.equal(room.door[0].wall, 4);

    await saved(() => page.getByRole('button', { name: '+ obstacle' }).click());
    const start = (await survey()).room.obstacle[1].from;
    await saved(async () => {
        await page.locator('svg.board').focus();
        await page.keyboard.press('ArrowRight');
        await page.keyboard.press('Shift+ArrowUp');
    });
    const moved = (await survey()).room.obstacle[1].from;
    assert.notEqual(moved[0], start[0]);
    assert.notEqual(moved[1], start[1]);
    await saved(() => page.keyboard.press('Delete'));
    assert.equal((await survey()).room.obstacle.length, 1);
});

test('new walls are drawn: corners by the pointer, then the same by typed lengths', async () => {
    await page.getByRole('button', { name: 'Draw new walls' }).click();
    const board = await page.locator('svg.board.drawing').boundingBox();
    const at = (fx, fy) => [board.x + board.width * fx, board.y + board.height * fy];
    await saved(async () => {
        for (const [fx, fy] of [[0.2, 0.8], [0.8, 0.8], [0.8, 0.2], [0.2, 0.2]]) {
            await page.mouse.move(...at(fx, fy));
            await page.mouse.click(...at(fx, fy));
        }
        await page.mouse.click(...at(0.2, 0.8));
    });
    let { room } = await survey();
    assert.equal(room.plan.length, 4);
    assert.equal(room.plan[0][1], room.plan[1][1], 'the first side is level');
    assert.equal(room.plan[1][0], room.plan[2][0], 'the second is square to it');

    await page.getByRole('button', { name: 'Draw new walls' }).click();
    await saved(async () => {
        for (const [length, way] of [['22 ft', 'right'], ['16 ft', 'up'], ['22 ft', 'left']]) {
            await page.getByLabel('Length of the next side', { exact: true }).fill(length);
            await page.getByRole('button', { name: `Length of the next side: ${way}` }).click();
        }
        await page.getByRole('button', { name: 'Close the room' }).click();
    });
    ({ room } = await survey());
    assert.deepEqual(room.plan, [['0 ft', '0 ft'], ['22 ft', '0 ft'], ['22 ft', '16 ft'], ['0 ft', '16 ft']]);
    await page.locator('[data-price]').filter({ hasText: '$' }).waitFor();
    assert.deepEqual(page.complaints, []);
});
