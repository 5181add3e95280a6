// SPDX-License-Identifier: MIT
// How far a check is from its limit: a bar from the limit's line, right for room left, left for what is missing.

import type { Status } from '../api/types';
import { percent } from '../units/print';
import { words } from '../words';
import { reach } from './reach';

const half = 30;

export function Margin({ margin, status }: { margin: number | undefined; status: Status }) {
    if (margin === undefined) return <span class="margin none" />;
    const long = reach(margin) * half;
    return (
        <svg class={`margin ${status}`} viewBox="-32 0 64 10" width="64" height="10" role="img" aria-label={words.proof.marginName(percent(margin))}>
            <path class="ground" d={`M${-half} 5H${half}`} />
            <rect x={margin < 0 ? -long : 0} y="2" width={Math.max(1, long)} height="6" />
            <path class="limit" d="M0 0V10" />
        </svg>
    );
}
