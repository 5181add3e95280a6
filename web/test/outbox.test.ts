// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import { latest } from '../src/state/outbox';

const count = (row: number, value: number) => ({ path: ['fixtures', row, 'count'], value });

describe('what waits for the server', () => {
    it('keeps the last of several values for one place, and the order', () => {
        expect(latest([count(0, 5), count(1, 6), count(0, 7)])).toEqual([count(1, 6), count(0, 7)]);
    });
    it('takes places after a row is taken out for others', () => {
        const out = { path: ['fixtures', 0], remove: true };
        expect(latest([count(1, 5), out, count(1, 7)])).toEqual([count(1, 5), out, count(1, 7)]);
        expect(latest([count(1, 5), count(1, 6), out, count(1, 7)])).toEqual([count(1, 6), out, count(1, 7)]);
    });
});
