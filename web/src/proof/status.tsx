// SPDX-License-Identifier: MIT
// How a check ends: a shape and a word, and a colour besides.

import type { Status as Ends } from '../api/types';
import { words } from '../words';

const shapes: { [status in Ends]: string } = {
    fail: 'M2 2l10 10M12 2L2 12',
    tight: 'M7 2l6 10.500H1z',
    refer: 'M7 1.500a5.5 5.5 0 1 0 .01 0M7 4v3.800M7 9.600v.8',
    pass: 'M1.5 7.500l4 4 7-9',
};

export function Mark({ status }: { status: Ends }) {
    return (
        <svg class={`mark ${status}`} viewBox="0 0 14 14" width="14" height="14" aria-hidden="true">
            <path d={shapes[status]} />
        </svg>
    );
}

export function Ending({ status }: { status: Ends }) {
    return (
        <span class={`ending ${status}`} title={words.statusHelp[status]}>
            <Mark status={status} />
            {words.status[status]}
        </span>
    );
}
