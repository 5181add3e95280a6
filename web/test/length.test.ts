// SPDX-License-Identifier: MIT
import { describe, expect, it } from 'vitest';
import { printLength, readLength, snapLength } from '../src/units/length';

describe('lengths as on paper', () => {
    // an inch is 25.4 mm exactly (international yard and pound, 1959)
    it.each([
        ['6 ft 3-1/2 in', 1.9177],
        ["6'-3 1/2\"", 1.9177],
        ['20 ft', 6.096],
        ['3/4 in', 0.01905],
        ['34 in', 0.8636],
        ['4.2 m', 4.2],
        ['1910 mm', 1.91],
        ['-2 ft 6 in', -0.762],
    ])('%s', (text, metres) => expect(readLength(text)).toBeCloseTo(metres, 9));

    it.each(['', '12', 'six feet', '3 furlongs', '1 ft 2 in 3 in', '<b>', null, 7])('%s is none', (text) => expect(readLength(text)).toBeNull());

    it('prints to a sixteenth, and what it prints it reads', () => {
        expect(printLength(1.9177, 'us')).toBe('6 ft 3-1/2 in');
        expect(printLength(0.3048, 'us')).toBe('1 ft');
        expect(printLength(0.0015875, 'us')).toBe('1/16 in');
        expect(printLength(-0.762, 'us')).toBe('-2 ft 6 in');
        expect(printLength(0, 'us')).toBe('0 ft');
        // just under a foot rounds up into the feet, never to 12 in
        expect(printLength(0.3047, 'us')).toBe('1 ft');
        for (let sixteenths = -400; sixteenths < 2000; sixteenths += 7) {
            const metres = (sixteenths * 0.0254) / 16;
            expect(readLength(printLength(metres, 'us'))).toBeCloseTo(metres, 9);
        }
    });

    it('prints metres to a millimetre', () => {
        expect(printLength(1.9177, 'si')).toBe('1.918 m');
        expect(printLength(4, 'si')).toBe('4 m');
        expect(readLength(printLength(0.05, 'si'))).toBeCloseTo(0.05, 9);
    });

    it('snaps to an inch or a centimetre', () => {
        expect(snapLength(0.03, 'us')).toBeCloseTo(0.0254, 9);
        expect(snapLength(0.034, 'si')).toBeCloseTo(0.03, 9);
    });
});
