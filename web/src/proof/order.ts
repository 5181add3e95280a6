// SPDX-License-Identifier: MIT
// The checks in the order they matter, those alike gathered under the worst of them.

import type { CheckRow, Status } from '../api/types';

const rank: { [status in Status]: number } = { fail: 0, tight: 1, refer: 2, pass: 3 };

/** Negative where `a` is the worse; those alike keep their order, which is the report's. */
export function worse(a: CheckRow, b: CheckRow): number {
    return rank[a.status] - rank[b.status] || (a.margin ?? 1e9) - (b.margin ?? 1e9);
}

export interface Family {
    key: string;
    worst: CheckRow;
    checks: CheckRow[];
}

/** gas.pressure.heater-7 and gas.pressure.heater-8 are alike: same id but for the thing at its end. */
export function familyKey(check: CheckRow): string {
    const parts = check.id.split('.');
    return parts.length > 2 ? parts.slice(0, 2).join('.') : check.id;
}

export interface Filter {
    service: string | null;
    status: Status | null;
    words: string;
}

export function families(checks: readonly CheckRow[], filter: Filter): Family[] {
    const words = filter.words.toLowerCase().split(/\s+/).filter(Boolean);
    const found = new Map<string, CheckRow[]>();
    for (const check of checks) {
        if (filter.service && check.service !== filter.service) continue;
        if (filter.status && check.status !== filter.status) continue;
        if (words.length > 0) {
            const text = `${check.id} ${check.title} ${check.says}`.toLowerCase();
            if (!words.every((word) => text.includes(word))) continue;
        }
        // what ends differently is not alike: a failing heater is not hidden under "and 9 alike"
        const key = `${familyKey(check)} ${check.status}`;
        const list = found.get(key);
        if (list) list.push(check);
        else found.set(key, [check]);
    }
    return [...found]
        .map(([key, list]) => {
            const sorted = list.sort(worse);
            return { key, worst: sorted[0]!, checks: sorted };
        })
        .sort((a, b) => worse(a.worst, b.worst));
}

export function countBy(checks: readonly CheckRow[]): [string, number][] {
    const found = new Map<string, number>();
    for (const check of checks) found.set(check.service, (found.get(check.service) ?? 0) + 1);
    return [...found].sort((a, b) => (a[0] < b[0] ? -1 : 1));
}
