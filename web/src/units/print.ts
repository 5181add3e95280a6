// SPDX-License-Identifier: MIT
// Quantities for reading: enough digits to decide by, no more.

import type { Quantity } from '../api/types';

const digits = (value: number): string => {
    const size = Math.abs(value);
    if (size !== 0 && size < 0.001) return value.toExponential(1);
    if (Number.isInteger(value) && size < 1e7) return value.toLocaleString('en-US');
    const places = size >= 1000 ? 0 : size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
    return value.toLocaleString('en-US', { minimumFractionDigits: 0, maximumFractionDigits: places });
};

const spelled: { [unit: string]: string } = {
    degF: '°F', degC: '°C', inH2O: 'inH₂O', ft3: 'ft³', 'ft3/h': 'ft³/h', ft2: 'ft²', m2: 'm²', m3: 'm³', 'm3/h': 'm³/h', inHg: 'inHg',
    '%': '%', deltaF: '°F', 'Btu/ft3': 'Btu/ft³', 'MJ/m3': 'MJ/m³',
};
export const printUnit = (unit: string): string => spelled[unit] ?? unit.replace(/\*/g, '·');

export function print(quantity: Quantity | undefined | null): string {
    if (!quantity || typeof quantity.value !== 'number') return '–';
    if (quantity.text && quantity.unit !== 'USD') return quantity.text;
    const { value, unit } = quantity;
    if (unit === 'USD') return dollars(value);
    if (unit === '1' || unit === '') return digits(value);
    return `${digits(value)} ${printUnit(unit)}`;
}

export const printNumber = digits;

export const dollars = (value: number): string =>
    `$${Math.round(value).toLocaleString('en-US')}`;

export const percent = (share: number): string => {
    const value = share * 100;
    return `${Math.abs(value) < 10 ? value.toFixed(1) : Math.round(value).toLocaleString('en-US')} %`;
};
