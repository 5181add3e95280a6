// SPDX-License-Identifier: MIT
// Candidates told apart, and which of them betters another.

import type { Candidate } from '../api/types';

export const sameCandidate = (a: { layout: string; heater: string } | null | undefined, b: { layout: string; heater: string } | null | undefined): boolean =>
    !!a && !!b && a.layout === b.layout && a.heater === b.heater;

export const candidateKey = (one: Candidate): string => `${one.layout}/${one.heater}`;

export interface Better {
    one: Candidate;
    /** How many fewer checks fail. */
    fewer: number;
    /** Dollars less. */
    saves: number;
}

/** The best of the candidates where it betters the one shown: fewer checks fail, or as many for less. */
export function bettering(list: readonly Candidate[], shown: { layout: string; heater: string }): Better | null {
    const here = list.find((one) => sameCandidate(one, shown));
    if (!here?.tally || !here.total) return null;
    for (const one of list) {
        if (one.refused || !one.tally || !one.total) continue;
        const fewer = here.tally.fail - one.tally.fail;
        const saves = here.total.value - one.total.value;
        if (fewer > 0 || (fewer === 0 && saves >= 1)) return { one, fewer, saves };
    }
    return null;
}
