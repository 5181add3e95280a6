// SPDX-License-Identifier: MIT
import type { Candidate } from '../api/types';
import { vocabulary } from '../state/job';

export const heaterTitle = (key: string): string => vocabulary.value?.heaters.find((one) => one.key === key)?.title.split(',')[0] ?? key;

/** "rack-two-sided-1-at-48-66" as a person would say it: the arrangement, then what tells it from its like. */
export function layoutTitle(id: string): string {
    const found = /^(rack-one-sided|rack-two-sided|wall)-?(.*)$/.exec(id);
    if (!found) return id.replace(/-/g, ' ');
    const kind = { 'rack-one-sided': 'one-sided rack', 'rack-two-sided': 'two-sided rack', wall: 'wall' }[found[1]!];
    const rest = found[2]!.replace(/-?rows-/g, '×').replace(/-at-/g, ' at ').replace(/-/g, found[1] === 'wall' ? '+' : ' ');
    return `${kind} ${rest}`.trim();
}

export const sameCandidate = (a: { layout: string; heater: string } | null | undefined, b: { layout: string; heater: string } | null | undefined): boolean =>
    !!a && !!b && a.layout === b.layout && a.heater === b.heater;

export const candidateKey = (one: Candidate): string => `${one.layout}/${one.heater}`;
