// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import { at, key, place, put } from '../src/api/paths';
import { eachBox, eachRod, putIn, readPieces, readView } from '../src/api/read';
import type { Candidate, CheckRow, View } from '../src/api/types';
import { ticks } from '../src/choice/ticks';
import { differing, lines } from '../src/choice/lines';
import { bettering } from '../src/choice/rank';
import { layoutSaid } from '../src/choice/said';
import { cut, kindOf, nodeAt } from '../src/given/schema';
import { editOf } from '../src/given/take';
import { families } from '../src/proof/order';
import { reach } from '../src/proof/reach';
import { print } from '../src/units/print';
import { words } from '../src/words';

const check = (id: string, status: CheckRow['status'], margin?: number): CheckRow => ({ id, title: id, service: id.split('.')[0]!, status, margin, says: '', pieces: [] });

describe('places in the survey', () => {
    const tree = { room: { door: [{ width: '34 in' }] } };
    it('are read and written without touching the rest', () => {
        expect(place('room.door.0.width')).toEqual(['room', 'door', 0, 'width']);
        expect(key(['room', 'door', 0])).toBe('room.door.0');
        expect(at(tree, place('room.door.0.width'))).toBe('34 in');
        expect(at(tree, place('room.window.0.width'))).toBeUndefined();
        const next = put(tree, place('room.door.0.width'), '36 in');
        expect(at(next, place('room.door.0.width'))).toBe('36 in');
        expect(tree.room.door[0]!.width).toBe('34 in');
        expect(at(put(tree, ['room', 'door', 0], undefined), ['room', 'door'])).toEqual([]);
        expect(at(put({}, ['supply', 'pressure'], '60 psi'), ['supply', 'pressure'])).toBe('60 psi');
    });
});

describe('what is typed', () => {
    const schema = { properties: { a: { type: 'integer' }, b: { type: 'boolean' }, c: { type: 'string', pattern: 'x' }, d: { $ref: '#/$defs/e' } }, $defs: { e: { enum: ['one'] } } };
    it('goes as its kind, and as it stands where it is of no kind', () => {
        expect(editOf(['a'], '1,200', nodeAt(schema, ['a']))).toEqual({ path: ['a'], value: 1200 });
        expect(editOf(['a'], 'many', nodeAt(schema, ['a']))).toEqual({ path: ['a'], value: 'many' });
        expect(editOf(['b'], 'false', nodeAt(schema, ['b']))).toEqual({ path: ['b'], value: false });
        expect(editOf(['c'], ' 60 psi ', nodeAt(schema, ['c']))).toEqual({ path: ['c'], value: '60 psi' });
        expect(editOf(['c'], '', nodeAt(schema, ['c']))).toEqual({ path: ['c'], remove: true });
        expect(kindOf(nodeAt(schema, ['d']))).toBe('word');
    });
    it('stands in sentences', () => {
        expect(cut('At {supply.pressure}, cold.')).toEqual(['At ', { field: 'supply.pressure' }, ', cold.']);
        for (const list of Object.values(words.given.sentences)) for (const text of list) expect(cut(text).some((part) => typeof part !== 'string')).toBe(true);
    });
});

describe('the proof', () => {
    const checks = [check('gas.pressure.heater-1', 'pass', 0.4), check('gas.pressure.heater-2', 'fail', -0.1), check('gas.pressure.heater-3', 'pass', 0.2), check('water.hardness', 'tight', 0.03), check('room.door', 'refer')];
    const all = { service: null, status: null, words: '' };
    it('is worst first, alike under one line, and what fails is never hidden among what holds', () => {
        const found = families(checks, all);
        expect(found.map((one) => one.worst.id)).toEqual(['gas.pressure.heater-2', 'water.hardness', 'room.door', 'gas.pressure.heater-3']);
        expect(found.at(-1)!.checks).toHaveLength(2);
    });
    it('is sieved', () => {
        expect(families(checks, { ...all, service: 'water' })).toHaveLength(1);
        expect(families(checks, { ...all, status: 'refer' })[0]!.worst.id).toBe('room.door');
        expect(families(checks, { ...all, words: 'heater-3 gas' })).toHaveLength(1);
    });
    it('draws margins that can be seen', () => {
        expect(reach(0.01)).toBeCloseTo(0.1, 9);
        expect(reach(-7)).toBe(1);
    });
});

describe('what the server packs', () => {
    it('is unpacked', () => {
        const pieces = readPieces({
            columns: ['id', 'part', 'service', 'item', 'size', 'heater', 'bank', 'cut'],
            parts: ['heater'], services: ['gas'], items: [['demo-199', 'Demo 199']],
            rows: [['heater-1', 0, 0, 0, '3/4', 1, 1, null], ['x', -1, -1, -1, '', 0, 0, null]],
        });
        expect(pieces[0]).toMatchObject({ id: 'heater-1', part: 'heater', title: 'Demo 199', heater: 1 });
        expect(pieces[1]).toMatchObject({ part: '', cut: null });
        const rods: number[][] = [];
        eachRod([4, 0.1, 2, 0, 0, 0, 1, 0, 0, 5, 0.2, 3, 0, 0, 0, 1, 0, 0, 1, 1, 0], (piece, radius, points) => rods.push([piece, radius, points.length]));
        expect(rods).toEqual([[4, 0.1, 2], [5, 0.2, 3]]);
        const boxes: number[] = [];
        eachBox([1, 0, 0, 0, 1, 1, 1, 2, 0, 0, 0, 1, 1, 1], (piece) => boxes.push(piece));
        expect(boxes).toEqual([1, 2]);
    });
});

describe('a change', () => {
    const row = (id: string, value: string) => ({ ...check(id, 'pass'), value });
    const before = {
        revision: 3, settled: true, layout: { id: 'wall-1' }, price: { total: 1 }, checks: [row('a', '1'), row('b', '2')],
        pieces: { columns: ['id'], parts: [], services: [], items: [], rows: [['p']] }, geometry: { boxes: [1], rods: [] },
    };
    it('leaves what is not other the same object', () => {
        const next = putIn(before, { revision: 4, settled: false, since: 3, parts: { price: { total: 2 } }, checks: [row('b', '3')] });
        expect(next.geometry).toBe(before.geometry);
        expect(readView(next).pieces).toBe(readView(before).pieces);
        expect(next.checks[0]).toBe(before.checks[0]);
        expect(next).toMatchObject({ revision: 4, settled: false, price: { total: 2 } });
        expect(next.checks.map((one: CheckRow) => one.value)).toEqual(['1', '3']);
        expect(before.checks[1]!.value).toBe('2');
    });
    it('takes out, puts in and puts in order', () => {
        const next = putIn(before, { revision: 4, settled: false, since: 3, parts: { layout: null, price: null }, checks: [row('c', '9')], order: ['c', 'a'] });
        expect(next.checks.map((one: CheckRow) => one.id)).toEqual(['c', 'a']);
        expect(readView(next)).toMatchObject({ layout: null, price: null });
    });
});

describe('alternatives', () => {
    it('are named by where they stand', () => {
        const said = (id: string, units: 'us' | 'si') => layoutSaid(id, units).replace(/\u00a0/g, ' ').replace(/\u2011/g, '-');
        expect(layoutSaid('wall-3-at-17.25', 'us')).toBe('wall 3, at 1\u00a0ft\u00a05\u20111/4\u00a0in');
        expect(said('wall-3-at-17.25-fed-1', 'us')).toBe('wall 3, at 1 ft 5-1/4 in, fed from the far end');
        expect(said('wall-1-3-at-0-118.5', 'us')).toBe('walls 1 and 3, at 0 ft and 9 ft 10-1/2 in');
        expect(said('wall-1-3-at-0-118.5-fed-2', 'si')).toBe('walls 1 and 3, at 0 m and 3.01 m, bank 2 fed from the far end');
        expect(said('wall-1-1-at-10', 'us')).toBe('wall 1, 2 in line, at 10 in');
        expect(said('rack-one-sided-wall-3-line-2-at-181-125', 'us')).toBe('one-sided rack by wall 3, 2 in line, at 15 ft 1 in and 10 ft 5 in');
        expect(said('rack-two-sided-2-rows-2-at-12-24-fed-1-3', 'us')).toBe('two-sided rack turned a quarter, 2 rows, at 1 ft and 2 ft, banks 1 and 3 fed from the far end');
        expect(said('rack-two-sided-1', 'us')).toBe('two-sided rack');
        expect(said('something-else', 'us')).toBe('something else');
    });
    it('better the one shown where fewer checks fail, or as many for less', () => {
        const one = (layout: string, fail: number, total: number): Candidate => ({
            layout, heater: 'a', heaters: 4, chosen: false, total: { value: total, unit: 'USD', text: '' }, tally: { pass: 9, tight: 0, fail, refer: 0 },
        });
        const [best, next, worst] = [one('x', 0, 100), one('y', 0, 120), one('z', 2, 90)];
        const list = [best, next, worst, { ...one('w', 0, 1), refused: 'no room' }];
        expect(bettering(list, best)).toBeNull();
        expect(bettering(list, next)).toMatchObject({ one: best, fewer: 0, saves: 20 });
        expect(bettering(list, worst)).toMatchObject({ one: best, fewer: 2, saves: -10 });
        expect(bettering(list, one('not listed', 1, 1))).toBeNull();
    });
    const view = (total: number, checks: CheckRow[]): View => ({
        revision: 1, settled: true, layout: null, shortfalls: [], capacity: null, demand: null, tally: { pass: 0, tight: 0, fail: 0, refer: 0 },
        price: { parts: { value: 1, unit: 'USD' }, labour: { value: 1, unit: 'USD' }, markup: { value: 1, unit: 'USD' }, total: { value: total, unit: 'USD' }, hours: 1 },
        checks, candidates: [], pieces: [], states: { list: [], of: [] }, whys: { list: [], of: [] }, geometry: { boxes: [], rods: [] }, room: null,
    });
    it('differ line by line', () => {
        const [a, b] = [view(1000, [check('a.b', 'pass'), check('c.d', 'pass')]), view(1500, [check('a.b', 'fail'), check('e.f', 'tight')])];
        const total = lines(a, b).find((line) => line.name === words.choice.lines.total)!;
        expect(total).toMatchObject({ a: '$1,000', b: '$1,500', by: '+$500' });
        expect(differing(a, b).map((one) => one.title)).toEqual(['a.b', 'e.f']);
    });
    it('have round ticks', () => expect(ticks(66000, 72500)).toEqual([66000, 68000, 70000, 72000]));
});

describe('figures', () => {
    it.each([
        [{ value: 1234.5, unit: 'USD' }, '$1,235'],
        [{ value: 37.85, unit: 'gpm' }, '37.9 gpm'],
        [{ value: 0.0235, unit: 'inH2O' }, '0.024 inH₂O'],
        [{ value: 12, unit: '1' }, '12'],
        [undefined, '–'],
    ])('%o', (quantity, text) => expect(print(quantity)).toBe(text));
});
